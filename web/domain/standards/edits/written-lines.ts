import type { StandardBody } from '#contract/standards/standards.ts'
import { codeFor } from '#standards/code-for.ts'
import { fromLines } from './named-lines.ts'

type Check = StandardBody['minors'][number]['checks']['execution'][number]
type Reference = StandardBody['references'][number]

/** A check as one writes it: "saber: Three fingers to the hilt" where it is for one arm alone. */
export const writeCheck = ({ title, arm }: Check): string => (arm ? `${arm}: ${title}` : title)

/** Checks from their lines. An arm before a colon counts where it is one of the standard's; else the colon is text. */
export const readChecks = (before: readonly Check[], lines: readonly string[], arms: readonly string[]): Check[] =>
  fromLines(before, lines, writeCheck, (line, item, used) => {
    const colon = line.indexOf(':')
    const arm = arms.find((one) => one.toLowerCase() === line.slice(0, Math.max(colon, 0)).trim().toLowerCase())
    const title = arm === undefined ? line : line.slice(colon + 1).trim()
    const { code = codeFor(title, used), kind = 'fits' } = item ?? {}
    return { code, title, kind, ...(arm !== undefined && { arm }) }
  })

/** A reference as one writes it: its title, then after the last semicolon its edition. */
export const writeReference = ({ title, edition }: Reference): string =>
  edition !== '' || title.includes(';') ? `${title}; ${edition}`.trim() : title

export const readReference = (line: string): Reference => {
  const at = line.lastIndexOf(';')
  return at === -1
    ? { title: line, edition: '' }
    : { title: line.slice(0, at).trim(), edition: line.slice(at + 1).trim() }
}
