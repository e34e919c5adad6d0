import { DEEPEST, LONGEST_CELL } from './limits.ts'
import { cellTooLong } from './refusals.ts'
import { notReadable } from './sniff-format.ts'

/** As in \u0041. */
const LONGEST_ESCAPE = 6
const LONGEST_NUMBER = 400

/**
 * Refuses, before any of it is parsed, JSON with a text or a nesting beyond what a file may hold, or a number that no
 * computer reads as it is written. Whether it is JSON at all the parser says.
 */
export function requireBoundedJson(text: string): void {
  let depth = 0
  for (let at = 0; at < text.length; at += 1) {
    const sign = text.charCodeAt(at)
    if (sign === QUOTE) at = endOfText(text, at)
    else if (sign === OPEN_LIST || sign === OPEN_THING) {
      depth += 1
      if (depth > DEEPEST)
        throw notReadable('too-deep', `The JSON has more than ${DEEPEST} things within one another. Send a plain list.`)
    } else if (sign === CLOSE_LIST || sign === CLOSE_THING) depth -= 1
    else if (isDigit(sign)) at = endOfNumber(text, at)
  }
}

const [QUOTE, BACKSLASH, OPEN_LIST, CLOSE_LIST, OPEN_THING, CLOSE_THING] = [...'"\\[]{}'].map((sign) =>
  sign.charCodeAt(0),
)
const isDigit = (sign: number): boolean => sign >= 48 && sign <= 57

/** @returns where the closing quotation mark stands, or the end of it all */
function endOfText(text: string, start: number): number {
  let at = start + 1
  for (; at < text.length && text.charCodeAt(at) !== QUOTE; at += 1) {
    if (text.charCodeAt(at) === BACKSLASH) at += 1
    if (at - start > LONGEST_CELL * LONGEST_ESCAPE) throw cellTooLong(`The text from character ${start + 1} on`)
  }
  return at
}

function endOfNumber(text: string, start: number): number {
  let at = start
  while (at + 1 < text.length && /[-+.\deE]/.test(text[at + 1]!)) at += 1
  const isLong = at - start >= LONGEST_NUMBER
  if (isLong || Math.abs(Number(text.slice(start, at + 1))) === Number.POSITIVE_INFINITY) {
    throw notReadable(
      'number-out-of-range',
      `The number from character ${start + 1} on is too large or too long. Mend it, and send the file again.`,
    )
  }
  return at
}
