export interface TextValue {
  readonly kind: 'text';
  readonly text: string;
}
