import { isolated } from '../calendar/isolate.ts'

/** A sentence, and the page of ours that has more of it. */
export interface LetterLine {
  readonly text: string
  readonly path?: string
}

export interface LetterPart {
  /** Empty: none. */
  readonly title: string
  readonly lines: readonly LetterLine[]
}

/** What a mail says, before it is text or HTML. Names stand in the parts, never in the subject. */
export interface Letter {
  readonly subject: string
  readonly parts: readonly LetterPart[]
  /** Why it comes, and what to do about that. */
  readonly footer: readonly LetterLine[]
}

/**
 * A letter as text and as HTML that needs nothing from elsewhere: no image, no style sheet, no colour of its own, so that it is
 * light or dark as the reader's program is. In: the letter, and the address of the server without a path.
 */
export function writeLetter(letter: Letter, origin: string): { text: string; html: string } {
  return { text: asText(letter, origin), html: asHtml(letter, origin) }
}

/** One line of plain words: no line breaks and other controls, and no marks that turn the direction of what follows. */
const plain = (text: string): string =>
  isolated(text.replace(/[\p{Cc}\p{Zl}\p{Zp}\u200e\u200f\u202a-\u202e\u2066-\u2069]+/gu, ' ').trim())

function asText({ parts, footer }: Letter, origin: string): string {
  const lineOf = ({ text, path }: LetterLine, mark: string) =>
    `${mark}${plain(text)}${path ? `\n${' '.repeat(mark.length)}${origin}${path}` : ''}`
  const blocks = parts.map(({ title, lines }) =>
    title
      ? [title.toUpperCase(), ...lines.map((line) => lineOf(line, '- '))].join('\n')
      : lines.map((line) => lineOf(line, '')).join('\n\n'),
  )
  return `${[...blocks, ['-- ', ...footer.map((line) => lineOf(line, ''))].join('\n')].join('\n\n')}\n`
}

const ENTITIES: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' }
const escaped = (text: string): string => plain(text).replace(/[&<>"']/g, (sign) => ENTITIES[sign]!)

function asHtml({ subject, parts, footer }: Letter, origin: string): string {
  const lineOf = ({ text, path }: LetterLine) =>
    path ? `<a href="${escaped(origin + path)}" style="color:inherit">${escaped(text)}</a>` : escaped(text)
  const blocks = parts.map(({ title, lines }) =>
    title
      ? `<h2 style="margin:1.5em 0 .5em;font-size:1.1em">${escaped(title)}</h2>
<ul style="margin:0;padding-left:1.2em">${lines.map((line) => `<li style="margin:.4em 0">${lineOf(line)}</li>`).join('\n')}</ul>`
      : lines.map((line) => `<p style="margin:.8em 0">${lineOf(line)}</p>`).join('\n'),
  )
  const words = footer.map((line) => `<p style="margin:.4em 0">${lineOf(line)}</p>`)
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<meta name="color-scheme" content="light dark"><meta name="supported-color-schemes" content="light dark">
<style>:root{color-scheme:light dark}</style><title>${escaped(subject)}</title></head>
<body style="margin:0;padding:1em;font:16px/1.5 system-ui,sans-serif;overflow-wrap:anywhere"><div style="max-width:40em">
<h1 style="margin:0 0 1em;font-size:1.25em">${escaped(subject)}</h1>
${blocks.join('\n')}
<div style="margin-top:2em;padding-top:.6em;border-top:1px solid;font-size:.875em">
${words.join('\n')}
</div></div></body></html>
`
}
