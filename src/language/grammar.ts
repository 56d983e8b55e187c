/**
 * The grammar as EBNF, for the reference. A test generates sentences from this text and holds the parser to them, so
 * that the two cannot part. `~` says that no blank stands there; everywhere else blanks are free.
 */
export const grammar = `
cell      = [ statement ] { newline [ statement ] } ;
statement = [ name "=" ] pipeline ;
pipeline  = ( step | value ) { "|" step } ;
step      = verb [ item { [ "," ] item } ] { "in" unit } ;
item      = word | value | range | assigned | "%" ;
range     = end ~ ".." ~ end ;
end       = quantity | "-" ~ quantity | name | "(" value ")" ;
assigned  = name ~ "=" ~ text ;
value     = sum [ "in" unit ] [ "coverage" quantity ] ;
sum       = product { ( "+" | "-" ) product } ;
product   = signed { ( "*" | "/" ) signed } ;
signed    = power | "-" ~ signed ;
power     = uncertain [ "^" signed ] ;
uncertain = primary [ ( "±" | "+/-" ) quantity [ "rectangular" | "triangular" ] [ "dof" number ] ] ;
primary   = quantity | text | part ;
part      = ( name | call | "(" pipeline ")" ) { ~ "[" integer "]" | ~ "." ~ name } ;
call      = function ~ "(" value { "," value } ")" ;
quantity  = number [ unit ] ;
unit      = factor { ~ ( "*" | "/" ) ~ factor } ;
factor    = "%" | symbol [ ~ "^" ~ integer | ~ "²" | ~ "³" ] ;
word      = letters { ~ "-" ~ letters } ;
`.trim();

/** What the names without a rule stand for, in words. */
export const terminals: Readonly<Record<string, string>> = {
  newline:
    'the end of a line; a statement goes on to the next line when that line begins with `|`, or when this one ends with `|`, `,` or an open bracket; `#` begins a comment',
  name: 'letters, digits and `_`, not beginning with a digit; no verb, keyword or function',
  verb: 'one of the verbs; which of the items after it are operands and which are options, the verb’s form says',
  function: 'one of the functions',
  letters: 'letters, digits and `_`: a keyword, a fixed word of the verb, or the name of a channel',
  number: 'digits with an optional decimal point and exponent: `5`, `0.25`, `1e-3`',
  integer: 'digits',
  symbol: 'a unit without operators: `Hz`, `mm`',
  text: 'characters between two `"`, on one line',
};
