const RTL = '\\p{Script=Hebrew}\\p{Script=Arabic}\\p{Script=Syriac}\\p{Script=Thaana}\\p{Script=Nko}\\p{Script=Adlam}'
const RUN = new RegExp(`[${RTL}](?:[${RTL}\\p{Mn}\\u200c\\u200d ,.'’-]*[${RTL}\\p{Mn}])?`, 'gu')
const FIRST_STRONG_ISOLATE = '\u2068'
const POP_ISOLATE = '\u2069'

/** The same text as it was entered. */
export const withoutIsolates = (text: string): string => text.replace(/[\u2066-\u2069]/g, '')

/**
 * Text in which every stretch of a right-to-left script is isolated, so that it does not move dates and numbers beside it
 * (Unicode Standard Annex 9, 2.4: first strong isolate and pop directional isolate). Text without any is as it was, and so is
 * text that is isolated already.
 */
export const isolated = (text: string): string =>
  withoutIsolates(text).replace(RUN, `${FIRST_STRONG_ISOLATE}$&${POP_ISOLATE}`)
