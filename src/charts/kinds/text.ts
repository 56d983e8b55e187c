import type { Presenter } from './kind.ts';

export const presentText: Presenter<'text'> = ({ text }) => [{ type: 'text', text }];
