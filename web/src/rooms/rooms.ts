// The rooms: a folder each, with a Room.svelte that is given its place. Arches stand in this order; a room whose folder is
// empty has no arch.
import type { Component } from 'svelte';
import type { Place } from '../route/paths';

export type Room = Component<{ place: Place }>;

const found = import.meta.glob<{ default: Room }>('./*/Room.svelte', { eager: true });

export function roomOf(name: string): Room | null {
  return found[`./${name}/Room.svelte`]?.default ?? null;
}

// Where a place belongs when it is no arch itself: a vessel stands in the cellar.
const k_inside: Record<string, string> = { vessel: 'cellar', sitting: 'cellar' };

export const k_arches = [
  { room: 'cellar', name: 'Cellar' },
  { room: 'turn', name: 'Turn' },
  { room: 'bench', name: 'Bench' },
  { room: 'shelf', name: 'Shelf' },
  { room: 'book', name: 'Book' },
].filter(({ room }) => roomOf(room) !== null);

export function archOf(room: string): string {
  return k_inside[room] ?? room;
}
