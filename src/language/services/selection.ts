import type { Place } from '../diagnostic.ts';
import { childrenOf, type Cell, type Node, type Pipeline } from '../tree.ts';

/** Places around an offset, each inside the next: word, item, step, pipeline, statement, cell. */
export function selectionsAt(cell: Cell, offset: number): readonly Place[] {
  const places: Place[] = [{ from: 0, to: cell.text.length }];
  const statement = cell.statements.find(({ place }) => holds(place, offset));
  if (statement) {
    places.push(statement.place);
    if (statement.name && holds(statement.name.place, offset)) places.push(statement.name.place);
    descend(statement.pipeline, offset, places);
  }
  const inner = places.reverse();
  return inner.filter(({ from, to }, i) => i === 0 || from !== inner[i - 1].from || to !== inner[i - 1].to);
}

const holds = ({ from, to }: Place, offset: number): boolean => from <= offset && offset <= to;

function descend(node: Node | Pipeline, offset: number, places: Place[]): void {
  if (!holds(node.place, offset)) return;
  places.push(node.place);
  // Where two children touch at the offset, the later one is taken: a caret selects to the right.
  const child = childrenOf(node).findLast(({ place }) => holds(place, offset));
  if (child) descend(child, offset, places);
}
