import type { Message } from '../charts/output.ts';
import { element } from './element.ts';

const words: Readonly<Record<Message['severity'], string>> = { error: 'Error', warning: 'Warning', note: 'Note' };

/** `Error  the sentence  cell 3, line 2  code`. */
export function messageElement({ severity, code, message, where }: Message): HTMLElement {
  const place = where === undefined ? [] : [' ', element('span', 'washboard-where', where)];
  return element(
    'p',
    `washboard-message washboard-${severity}`,
    element('strong', '', `${words[severity]}: `),
    message,
    ...place,
    ' ',
    element('code', 'washboard-code', code),
  );
}
