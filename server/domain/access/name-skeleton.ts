/**
 * Letters of Greek and Cyrillic that look like a Latin one in the fonts people read names in. Chosen by eye from the
 * characters of confusables.txt of Unicode (UTS 39); from memory, not a copy of it. Lower case, as names are compared.
 */
const LOOKS_LIKE: Readonly<Record<string, string>> = {
  а: 'a',
  в: 'b',
  с: 'c',
  ԁ: 'd',
  е: 'e',
  һ: 'h',
  н: 'h',
  і: 'i',
  ј: 'j',
  к: 'k',
  ӏ: 'l',
  м: 'm',
  о: 'o',
  р: 'p',
  ԛ: 'q',
  г: 'r',
  ѕ: 's',
  т: 't',
  у: 'y',
  ѵ: 'v',
  ԝ: 'w',
  х: 'x',
  ѡ: 'w',
  α: 'a',
  β: 'b',
  ε: 'e',
  η: 'n',
  ι: 'i',
  κ: 'k',
  ν: 'v',
  ο: 'o',
  ρ: 'p',
  τ: 't',
  υ: 'u',
  χ: 'x',
  ω: 'w',
  γ: 'y',
  ı: 'i',
  ɡ: 'g',
  '0': 'o',
  '1': 'l',
  '|': 'l',
}

/**
 * What a name looks like: two names of one skeleton cannot be told apart at a glance. Compatibility forms (full width,
 * ligatures), case, invisible signs and accents count for nothing, and letters of other scripts for the Latin ones they
 * look like. In: any text. Out: for comparison only, never to be shown.
 */
export function nameSkeleton(name: string): string {
  const plain = name
    .normalize('NFKC')
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[\p{M}\p{Cf}\p{Z}\s]/gu, '')
  return [...plain]
    .map((sign) => LOOKS_LIKE[sign] ?? sign)
    .join('')
    .replaceAll('rn', 'm')
    .replaceAll('i', 'l')
}
