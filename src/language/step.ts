import { nearest } from '../units/nearest.ts';
import { askedUnits } from './askedUnit.ts';
import { arrange } from './arrange.ts';
import { checkCall } from './call.ts';
import { checkExpression, converted, wantedArguments } from './expression.ts';
import { changeTo, titles } from './messages.ts';
import { childrenOf, type Node, type Pipeline, type Step } from './tree.ts';
import { untyped, type Typed, type Work } from './work.ts';

/** Checks a pipeline: each step's value is the next step's first operand. */
export function checkPipeline({ steps }: Pipeline, work: Work): Typed {
  let value: Typed | undefined;
  for (const step of steps) {
    if (step.type === 'step') value = checkStep(step, value, work);
    else if (value === undefined)
      value =
        step.type === 'word' && likelyVerb(step.text, work)
          ? unknownVerb(step.text, step.place, work)
          : checkExpression(step, work);
    else {
      if (step.type !== 'missing')
        work.report('pipe.verb', step.place, { found: work.text.slice(step.place.from, step.place.to) });
      checkExpression(step, work);
      value = untyped;
    }
  }
  return value ?? untyped;
}

function checkStep(step: Step, piped: Typed | undefined, work: Work): Typed {
  const { verb } = step;
  const form = work.vocabulary.verbs.get(verb.text);
  if (form) {
    const { items, units } = askedUnits(step, work);
    const arrangement = arrange(form, verb, items, piped !== undefined, work, work.report);
    work.arranged(step, arrangement);
    return units.reduce(
      (typed, unit) => converted(typed, unit, { from: step.place.from, to: unit.place.to }, work),
      checkCall(arrangement, piped, work),
    );
  }
  if (work.bound(verb.text)) nameBeforeOperands(step, work);
  else unknownVerb(verb.text, verb.place, work);
  step.items.forEach(({ node }) => noteNames(node, work));
  return untyped;
}

/** A lone word that is no name and nearer to a verb than to any name. */
function likelyVerb(word: string, work: Work): boolean {
  if (work.bound(word)) return false;
  const verbs = [...work.vocabulary.verbs.keys()];
  return verbs.includes(nearest(word, [...work.names(), ...verbs])[0]);
}

function unknownVerb(verb: string, place: Step['place'], work: Work): Typed {
  const form = work.vocabulary.functions.get(verb);
  if (form) {
    work.report('function.arguments', place, { name: verb, wanted: wantedArguments(form), found: 0 });
    return untyped;
  }
  const near = nearest(verb, work.vocabulary.verbs.keys());
  work.report(
    'verb.unknown',
    place,
    { verb, nearest: near },
    near.map((word) => changeTo(word, place)),
  );
  return untyped;
}

/** `r levels`: a name where a verb stands; the pipe is likely what is missing. */
function nameBeforeOperands({ verb, items }: Step, work: Work): void {
  const name = verb.text;
  work.use(name);
  work.note({ role: 'name', name, place: verb.place });
  const next = items.at(0)?.node;
  const pipes = next?.type === 'word' && work.vocabulary.verbs.has(next.text);
  const at = { from: verb.place.to, to: verb.place.to };
  const fixes = pipes ? [{ title: titles.addPipe, place: at, text: ' |' }] : undefined;
  work.report(
    'verb.missing',
    verb.place,
    { found: name, instead: pipes ? `${name} | ${next.text}` : undefined },
    fixes,
  );
}

/** The names inside what could not be understood are uses all the same: renaming must not miss them. */
function noteNames(node: Node | Pipeline, work: Work): void {
  if ('type' in node && node.type === 'word' && work.bound(node.text)) {
    work.use(node.text);
    work.note({ role: 'name', name: node.text, place: node.place });
  }
  childrenOf(node).forEach((child) => noteNames(child, work));
}
