// Sitting keys, made on the device: UUID version 7 (RFC 9562, section 5.7), time-ordered.

export type RandomBytes = (count: number) => Uint8Array;

const browser_bytes: RandomBytes = (count) => crypto.getRandomValues(new Uint8Array(count));

export function sittingKey(now_ms: number, random: RandomBytes = browser_bytes): string {
  const bytes = new Uint8Array(16);
  bytes.set(random(10), 6);
  let time = Math.floor(now_ms);
  for (let i = 5; i >= 0; i--) {
    bytes[i] = time % 256;
    time = Math.floor(time / 256);
  }
  bytes[6] = 0x70 | ((bytes[6] ?? 0) & 0x0f);
  bytes[8] = 0x80 | ((bytes[8] ?? 0) & 0x3f);
  const hex = Array.from(bytes, (b) => b.toString(16).padStart(2, '0')).join('');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}
