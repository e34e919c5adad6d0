import { Parser } from 'saxen'
import { LONGEST_TOKEN } from './limits.ts'
import { cellTooLong } from './refusals.ts'
import { notReadable } from './sniff-format.ts'

export interface XmlHandlers {
  /** Names come without their namespace's prefix. */
  open(name: string, attributes: () => Record<string, string>): void
  close?(name: string): void
  text?(text: string): void
}

/**
 * Reads XML in pieces. Only the five entities of XML itself and character references are resolved; a document that
 * declares entities of its own is refused before any is looked at.
 * A piece of text or a sign that does not end is refused soon, for it is looked at again with every piece that comes.
 * @yields after each piece, so that what it held can be taken away
 */
export async function* parseXml(pieces: AsyncIterable<string>, handlers: XmlHandlers): AsyncGenerator<void> {
  const problems: Error[] = []
  const parser = new Parser()
  parser.on('attention', (text) => {
    if (/^<!DOCTYPE/i.test(text)) problems.push(new Error('DOCTYPE'))
  })
  parser.on('error', (error) => problems.push(error))
  let unread = 0
  parser.on('openTag', (name, attributes, decode) => {
    unread = 0
    handlers.open(local(name), () => {
      const decoded = Object.entries(attributes()).map(([key, value]) => [key, decode(value)])
      return Object.fromEntries(decoded)
    })
  })
  parser.on('closeTag', (name) => {
    unread = 0
    handlers.close?.(local(name))
  })
  parser.on('text', (text, decode) => handlers.text?.(decode(text)))
  parser.on('cdata', (text) => handlers.text?.(text))
  let isThere = false
  for await (const piece of pieces) {
    isThere ||= piece !== ''
    unread += piece.length
    if (unread > LONGEST_TOKEN) throw cellTooLong('A cell of the workbook')
    parser.write(piece)
    if (problems[0]) break
    yield
  }
  if (isThere && !problems[0]) parser.end()
  if (problems[0]) throw damagedXml(problems[0])
  yield
}

/** Reads all of a small document. */
export async function readXml(pieces: AsyncIterable<string>, handlers: XmlHandlers): Promise<void> {
  for await (const _ of parseXml(pieces, handlers));
}

const local = (name: string): string => name.slice(name.indexOf(':') + 1)

const damagedXml = ({ message }: Error) =>
  message === 'DOCTYPE'
    ? notReadable(
        'declares-entities',
        'The workbook declares XML entities of its own, which no spreadsheet program writes. It is not read.',
      )
    : damagedWorkbook()

export const damagedWorkbook = () =>
  notReadable(
    'damaged-workbook',
    'The workbook is damaged. Open it in your spreadsheet program, save a copy, and send that.',
  )
