const WORDS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve']

const grouped = new Intl.NumberFormat('en')

/** A count in figures: "1,204". */
export const figure = (count: number): string => grouped.format(count)

/** A count within a sentence: words up to twelve ("no", "one" … "twelve"), figures above. */
export const inWords = (count: number): string => WORDS[count] ?? figure(count)

/** The sentence with a capital letter in front. */
export const capital = (sentence: string): string => sentence.charAt(0).toUpperCase() + sentence.slice(1)

/** "1 retest", "4 retests"; an irregular plural is given. */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${figure(count)} ${count === 1 ? one : many}`

/** "one retest", "four retests", "31 retests": for sentences. */
export const countedInWords = (count: number, one: string, many = `${one}s`): string =>
  `${inWords(count)} ${count === 1 ? one : many}`

/** The word alone, in the number of the count. */
export const plural = (count: number, one: string, many = `${one}s`): string => (count === 1 ? one : many)

/** "a", "a and b", "a, b and c". */
export const listed = (words: readonly string[], last = 'and'): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`
