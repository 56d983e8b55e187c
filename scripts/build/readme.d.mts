export function withoutNeighbours(text: string): string;
