import { strict as assert } from 'node:assert';
import type { Output } from '../../src/charts/output.ts';
import { pageOfTests } from './page.ts';

const failed: Output = {
  version: 1,
  name: undefined,
  kind: 'messages',
  parts: [],
  text: '',
  messages: [
    {
      severity: 'error',
      code: 'file.missing',
      message: 'There is no file "raw/a.csv".',
      where: 'cell 2, line 3, columns 5 to 9',
      at: { line: 3, from: 5, to: 9 },
    },
    { severity: 'warning', code: 'channel.gravity', message: 'The mean is gravity.' },
  ],
};

describe('the links of messages', () => {
  const host = pageOfTests();

  it('ask the editor for the page about a message and for the text that it is about, by mouse and keys', async () => {
    await host.render('one', failed);
    const button = (name: string) => host.page.getByRole('button', { name, exact: true });
    await button('file.missing').click();
    await button('channel.gravity').focus();
    await host.page.keyboard.press('Enter');
    await button('cell 2, line 3, columns 5 to 9').click();
    assert.deepEqual(await host.asked(), [
      { type: 'page', code: 'file.missing' },
      { type: 'page', code: 'channel.gravity' },
      { type: 'text', output: 'of one', at: { line: 3, from: 5, to: 9 } },
    ]);
    assert.deepEqual(host.complaints, []);
  });
});
