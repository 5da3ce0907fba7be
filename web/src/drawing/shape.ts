// The cut through a vessel: how wide it is at each height, to scale, from what it holds and what it is made of.
//
// Lengths are in decimetres, so that a litre is a cubic one. Nobody has measured the keeper's vessels: these are the usual
// proportions of each kind (common practice, no source), sized so that the vessel holds its capacity.

export type ShapeKind = 'tank' | 'jar' | 'barrel' | 'keg' | 'tub';

export interface Shape {
  kind: ShapeKind;
  height: number; // of the inside, floor to brim
  // Half the inside width at a height, 0 to `height`; for a barrel lying on its side this is half its length there.
  half: (y: number) => number;
  half_max: number;
}

export function shapeKind(role: string, material: string): ShapeKind {
  if (/oak|wood|chestnut|acacia/i.test(material)) return 'barrel';
  if (role === 'serving') return 'keg';
  if (/glass/i.test(material)) return 'jar';
  if (/plastic|hdpe|pet|ceramic|clay|stoneware/i.test(material)) return 'tub';
  return 'tank';
}

export function shapeOf(role: string, material: string, capacity_litres: number): Shape {
  const kind = shapeKind(role, material);
  const litres = Math.max(capacity_litres, 0.1);
  switch (kind) {
    case 'barrel': {
      // Length 1.25 of the belly; a barrel holds about 0.86 of the cylinder around it.
      const belly = Math.cbrt((litres * 4) / (Math.PI * 1.25 * 0.86));
      const length = 1.25 * belly;
      const bulge = belly * 0.085;
      const half = (y: number) => {
        const from_edge = Math.min(y, belly - y);
        return from_edge >= bulge ? length / 2 : (length / 2) * Math.sqrt(Math.max(0, from_edge / bulge));
      };
      return { kind, height: belly, half, half_max: length / 2 };
    }
    case 'jar': {
      // A round body that narrows to a neck of a quarter of it.
      const across = Math.cbrt(litres / 0.95);
      const height = 1.5 * across;
      const half = (y: number) => {
        const t = y / height;
        const body = across / 2;
        const neck = across * 0.14;
        if (t < 0.06) return body * (0.86 + 0.14 * Math.sqrt(1 - (1 - t / 0.06) ** 2));
        if (t < 0.58) return body;
        if (t < 0.9) return neck + (body - neck) * (0.5 + 0.5 * Math.cos((Math.PI * (t - 0.58)) / 0.32));
        return neck;
      };
      return { kind, height, half, half_max: across / 2 };
    }
    case 'keg': {
      const across = Math.cbrt((litres * 4) / (Math.PI * 2.5));
      const height = 2.5 * across;
      return { kind, height, half: rounded(across / 2, height, across * 0.22, across * 0.26), half_max: across / 2 };
    }
    case 'tub': {
      const across = Math.cbrt((litres * 4) / (Math.PI * 1.15 * 0.9));
      const height = 1.15 * across;
      const half = (y: number) => (across / 2) * (0.9 + 0.1 * (y / height));
      return { kind, height, half, half_max: across / 2 };
    }
    case 'tank': {
      const across = Math.cbrt((litres * 4) / (Math.PI * 1.4));
      const height = 1.4 * across;
      return { kind, height, half: rounded(across / 2, height, across * 0.1, 0), half_max: across / 2 };
    }
  }
}

// A cylinder with its edges rounded at the foot and at the shoulder.
function rounded(radius: number, height: number, foot: number, shoulder: number) {
  return (y: number) => {
    const from_foot = foot > 0 ? Math.min(1, y / foot) : 1;
    const from_top = shoulder > 0 ? Math.min(1, (height - y) / shoulder) : 1;
    const corner = (t: number, size: number) => size * (1 - Math.sqrt(Math.max(0, 1 - (1 - t) ** 2)));
    return radius - corner(from_foot, foot) - corner(from_top, shoulder);
  };
}

const k_steps = 160;

// The height up to which the cut holds a share of its area, 0 to 1.
export function heightOfShare(shape: Shape, share: number): number {
  const { areas, total } = areaTable(shape);
  const wanted = Math.min(1, Math.max(0, share)) * total;
  let low = 0;
  while (low < k_steps && (areas[low + 1] ?? total) < wanted) low++;
  const a = areas[low] ?? 0;
  const b = areas[low + 1] ?? total;
  const t = b > a ? (wanted - a) / (b - a) : 0;
  return (Math.min(k_steps, low + t) / k_steps) * shape.height;
}

const known = new WeakMap<Shape, { areas: number[]; total: number }>();

function areaTable(shape: Shape) {
  const held = known.get(shape);
  if (held) return held;
  const areas = [0];
  for (let i = 0; i < k_steps; i++) {
    const middle = ((i + 0.5) / k_steps) * shape.height;
    areas.push((areas[i] ?? 0) + shape.half(middle));
  }
  const made = { areas, total: areas[k_steps] ?? 0 };
  known.set(shape, made);
  return made;
}

// The cut as a path, its foot's middle at (0, 0), up to a height; `scale` is px a decimetre.
export function outlinePath(shape: Shape, scale: number, upto = shape.height, closed = true): string {
  const left: string[] = [];
  const right: string[] = [];
  const n = 72;
  for (let i = 0; i <= n; i++) {
    const y = (i / n) * upto;
    const x = shape.half(y);
    right.push(`${round(x * scale)} ${round(-y * scale)}`);
    left.unshift(`${round(-x * scale)} ${round(-y * scale)}`);
  }
  return `M${left.join('L')}L${right.join('L')}${closed ? 'Z' : ''}`;
}

function round(v: number): number {
  return Math.round(v * 100) / 100;
}
