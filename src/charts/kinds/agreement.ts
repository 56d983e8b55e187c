import type { AgreementSide, AgreementValue } from '../../values/agreement.ts';
import { quantityText } from '../../values/uncertainText.ts';
import { printedUnit } from '../../values/number.ts';
import { columns, type Presenter } from './kind.ts';

/** Whether both agree, in a sentence, and the figures of both and of their difference. */
export const presentAgreement: Presenter<'agreement'> = (value) => [
  { type: 'text', style: 'lead', text: value.sentence },
  {
    type: 'table',
    caption: `${value.a.name} held against ${value.b.name}`,
    columns: columns(['Quantity', '', 'left'], ['Value ± standard uncertainty', printedUnit(value.unit.symbol)]),
    rows: [
      [value.a.name, textOf(value.a, value)],
      [value.b.name, textOf(value.b, value)],
      ['Difference', textOf({ name: '', value: value.difference, uncertainty: value.uncertainty }, value)],
    ],
  },
];

const textOf = ({ value, uncertainty }: AgreementSide, { unit }: AgreementValue): string =>
  quantityText(
    {
      quantity: { value, unit },
      ...(uncertainty === undefined ? {} : { parts: [{ input: '', size: uncertainty, df: Infinity }] }),
    },
    6,
    () => '',
  );
