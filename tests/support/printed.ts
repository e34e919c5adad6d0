import zlib from 'node:zlib'

const STREAM = /<<((?:(?!endobj)[\s\S])*?)>>\s*stream\r?\n/g
const TOKENS = /\/[^\s/<>[\]()]+|<[0-9A-Fa-f\s]*>|\((?:\\[\s\S]|[^\\()])*\)|[[\]]|[^\s/<>[\]()]+/g

export interface Printed {
  pages: number
  /** The smallest type on them, in points as it lies on the paper: whatever was scaled to fit is seen scaled. */
  smallestPt: number
}

/** What came out of a printer's point of view: the sheets of a PDF by Chromium, and its smallest type. */
export function readPrinted(pdf: Buffer): Printed {
  const text = pdf.toString('latin1')
  const sizes = contentsOf(pdf, text).flatMap(typeSizes)
  if (sizes.length === 0) throw new Error('There is no text in this PDF, or it is not written as Chromium does.')
  return { pages: text.match(/\/Type\s*\/Page\b/g)?.length ?? 0, smallestPt: Math.min(...sizes) }
}

/** The drawing instructions in it, unpacked; fonts and pictures are none. */
function contentsOf(pdf: Buffer, text: string): string[] {
  return [...text.matchAll(STREAM)].flatMap(({ 0: head, 1: facts = '', index }) => {
    const length = Number(/\/Length (\d+)/.exec(facts)?.[1])
    if (!facts.includes('/FlateDecode') || /\/(Subtype|Length1|FunctionType|Type\s*\/XRef)/.test(facts)) return []
    const start = index + head.length
    return [zlib.inflateSync(pdf.subarray(start, start + length)).toString('latin1')]
  })
}

/** How high one unit stands after these transformations (PDF 32000-1, 8.3.3: a matrix as six numbers). */
const heightOf = ([, , c = 0, d = 0]: readonly number[]) => Math.hypot(c, d)

/** Sizes of the type that is shown: the size of the font, times the text matrix, times those it is drawn under. */
function typeSizes(content: string): number[] {
  const sizes: number[] = []
  const outer: number[] = []
  let scale = 1
  let font = 0
  let line = 1
  let before: string[] = []
  const numbers = () => before.slice(-6).map(Number)
  for (const [token] of content.matchAll(TOKENS)) {
    if (token === 'q') outer.push(scale)
    else if (token === 'Q') scale = outer.pop() ?? 1
    else if (token === 'cm') scale *= heightOf(numbers())
    else if (token === 'Tf') font = Number(before.at(-1))
    else if (token === 'Tm') line = heightOf(numbers())
    else if (token === 'Tj' || token === 'TJ') sizes.push(font * line * scale)
    else {
      before = [...before.slice(-8), token]
      continue
    }
    before = []
  }
  return sizes
}
