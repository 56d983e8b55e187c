import type { CheckedNotebook } from '../../language/check.ts';
import { argumentsUnder, type CheckedArgument, type CheckedStatement } from '../../language/checked.ts';
import { roundedSI } from '../../units/arithmetic.ts';
import { boundNumeral, namesOfEnds, numeralsUnder, type Call, type Numeral } from './numerals.ts';

/** A call and the statement it stands in. */
export interface Site {
  readonly call: Call;
  readonly statement: CheckedStatement;
}

/** What is given under an operand or option of a call. */
export const givenUnder = ({ call }: Site, slot: string): readonly CheckedArgument[] =>
  argumentsUnder(slot, call.operands) ?? argumentsUnder(slot, call.options) ?? [];

/** Where what is called stands in a notebook's text, through names. */
export class Sites {
  readonly notebook: CheckedNotebook;

  constructor(notebook: CheckedNotebook) {
    this.notebook = notebook;
  }

  /** The call that gives an argument's value, in the statement where it is written. */
  of(argument: CheckedArgument | undefined, statement: CheckedStatement): Site | undefined {
    if (argument === undefined) return undefined;
    if (argument.type === 'call') return { call: argument, statement };
    if (argument.type === 'pick') return this.of(argument.of, statement);
    if (argument.type !== 'name') return undefined;
    const binder = this.#binder(argument.name);
    return binder === undefined ? undefined : this.of(binder.expression, binder);
  }

  /** Where a step is put that is to change an argument's value: behind the statement that binds it, or the call itself. */
  end(
    argument: CheckedArgument,
    statement: CheckedStatement,
  ): { readonly cell: number; readonly at: number } | undefined {
    if (argument.type === 'call') return { cell: statement.cell, at: argument.place.to };
    if (argument.type === 'pick') return this.end(argument.of, statement);
    const binder = argument.type === 'name' ? this.#binder(argument.name) : undefined;
    if (binder?.expression === undefined) return undefined;
    const { expression, cell, place } = binder;
    return expression.type === 'name' ? this.end(expression, binder) : { cell, at: place.to };
  }

  /** The call under an operand or option of a call. */
  under(site: Site, slot: string): Site | undefined {
    return this.of(givenUnder(site, slot).at(0), site.statement);
  }

  /** All calls under it. */
  allUnder(site: Site, slot: string): Site[] {
    return givenUnder(site, slot).flatMap((argument) => this.of(argument, site.statement) ?? []);
  }

  /** The numbers under an operand or option, by entry and part; a name stands for the number that is bound to it. */
  numbers(site: Site, slot: string): (readonly (Numeral | undefined)[])[] {
    const given = givenUnder(site, slot);
    return numeralsUnder(this.notebook, site.statement, site.call, slot, given).map((parts, entry) => {
      const argument = given[entry];
      if (argument.type === 'name') {
        const bound = this.#bound(argument.name);
        return bound === undefined ? parts : [bound];
      }
      if (argument.type !== 'range') return parts;
      const names = namesOfEnds(this.notebook, site.statement, argument.place);
      return parts.map((part, end) => part ?? this.#bound(names[end]));
    });
  }

  /** The one number under an operand or option, in SI, and where it stands if it stands by itself. */
  number(site: Site, slot: string): { readonly si: number; readonly numeral: Numeral } | undefined {
    const numeral = this.numbers(site, slot).at(0)?.at(0);
    return numeral === undefined ? undefined : { si: roundedSI(numeral.quantity), numeral };
  }

  /** The number that a name is bound to, if it is bound to no more than that. */
  #bound(name: string | undefined): Numeral | undefined {
    const binder = name === undefined ? undefined : this.#binder(name);
    return binder && boundNumeral(this.notebook, binder);
  }

  #binder(name: string): CheckedStatement | undefined {
    const index = this.notebook.bindings.get(name);
    return index === undefined ? undefined : this.notebook.statements[index];
  }
}
