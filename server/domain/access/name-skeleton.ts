import unhomoglyph from 'unhomoglyph'

/**
 * What a name looks like: two names of one skeleton cannot be told apart at a glance. Compatibility forms (full width,
 * ligatures), case, invisible signs and accents count for nothing, and letters of other scripts for the Latin ones they look
 * like, by the confusables of Unicode (UTS 39, section 4). In: any text. Out: for comparison only, never to be shown.
 */
export function nameSkeleton(name: string): string {
  const plain = name.normalize('NFKC').toLowerCase().normalize('NFKD')
  const letters = [...plain.replace(UNSEEN, '')].map(looksLike).join('')
  return letters.replace(UNSEEN, '').replaceAll('i', 'l')
}

/** Accents, signs without a width, and blanks. */
const UNSEEN = /[\p{M}\p{Cf}\p{Z}\s]/gu
const LATIN = /^[\x21-\x7e]+$/

/** A small letter as the small Latin ones it looks like; where only its capital looks like one, as that. */
function looksLike(letter: string): string {
  const small = unhomoglyph(letter).toLowerCase()
  if (LATIN.test(small)) return small
  const capital = unhomoglyph(letter.toUpperCase()).toLowerCase()
  return LATIN.test(capital) ? unhomoglyph(capital).toLowerCase() : small
}
