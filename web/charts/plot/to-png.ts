import { lookAround } from './look.ts'

const MARGIN = 24
const LINE = 1.35

/** Words in lines that fit a width, as `measure` tells it. */
export const wrap = (text: string, width: number, measure: (line: string) => number): string[] => {
  const lines: string[] = []
  for (const word of text.split(' ')) {
    const longer = lines.length > 0 ? `${lines.at(-1)} ${word}` : word
    if (lines.length > 0 && measure(longer) <= width) lines[lines.length - 1] = longer
    else lines.push(word)
  }
  return lines
}

/** The drawing as a picture that stands by itself: title, sentences and key in words over it, on the paper of the theme. */
export const toPng = async (drawing: HTMLCanvasElement, title: string, sentences: string[]): Promise<Blob> => {
  const scale = drawing.width / drawing.clientWidth
  const { ink, font } = lookAround(drawing.parentElement ?? document.body)
  const picture = document.createElement('canvas')
  const pen = picture.getContext('2d')
  if (!pen) throw new Error('This browser cannot draw a picture.')
  const blocks = [
    { text: title, size: 20, weight: 640 },
    ...sentences.map((text) => ({ text, size: 14, weight: 400 })),
  ].map(({ text, size, weight }) => {
    const style = `${weight} ${size * scale}px ${font}`
    pen.font = style
    return { style, size, lines: wrap(text, drawing.width, (line) => pen.measureText(line).width) }
  })
  const words = blocks.reduce((sum, { lines, size }) => sum + lines.length * size * LINE + 8, 0)
  picture.width = drawing.width + 2 * MARGIN * scale
  picture.height = drawing.height + (2 * MARGIN + words) * scale
  pen.fillStyle = ink.paper
  pen.fillRect(0, 0, picture.width, picture.height)
  pen.fillStyle = ink.ink
  pen.textBaseline = 'top'
  let top = MARGIN
  for (const { style, size, lines } of blocks) {
    pen.font = style
    for (const line of lines) {
      pen.fillText(line, MARGIN * scale, top * scale)
      top += size * LINE
    }
    top += 8
  }
  pen.drawImage(drawing, MARGIN * scale, top * scale)
  return new Promise((resolve, reject) =>
    picture.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('The picture could not be made.')))),
  )
}
