import type { Standard, StandardBody } from '#contract/standards/standards.ts'
import { minimumGo } from '#scoring/minimum.ts'
import { formatDay } from '../../words/format-day.ts'
import { counted, inWords, plural } from '../../words/format-number.ts'

/** The rule of a standard in one sentence. */
export const formatRuleOfStandard = ({
  rule,
  majors,
  minors,
}: Pick<StandardBody, 'rule' | 'majors' | 'minors'>): string => {
  const minimum = minimumGo(String(rule.percent), minors.length)
  const all =
    majors.length === 0
      ? ''
      : `${majors.length === 1 ? 'the major measure' : `all ${inWords(majors.length)} major measures`} GO and `
  return `GO with ${all}${minimum} of ${counted(minors.length, 'minor measure')} GO; a minor measure is GO with ${inWords(rule.needed)} of ${inWords(rule.trials)} ${plural(rule.trials, 'trial')} correct.`
}

/** Where a version stands: draft, coming, in force, or followed by another. `versions` are those of the same code. */
export const formatVersion = (standard: Standard, versions: readonly Standard[], today: string): string => {
  if (!standard.publishedAt) return 'a draft; it is not in force'
  const next = versions
    .filter((other) => other.publishedAt && other.version > standard.version)
    .sort((a, b) => a.version - b.version)[0]
  if (standard.effectiveFrom > today) return `in force from ${formatDay(standard.effectiveFrom, today)}`
  if (next && next.effectiveFrom <= today)
    return `followed by version ${next.version} on ${formatDay(next.effectiveFrom, today)}`
  return `in force since ${formatDay(standard.effectiveFrom, today)}`
}

/** What comes after the version shown: "; version 2 is a draft"; nothing where it is the newest. */
export const formatNext = (shown: Standard, versions: readonly Standard[], today: string): string =>
  versions
    .filter(({ version }) => version > shown.version)
    .map((next) =>
      next.publishedAt
        ? `; version ${next.version} in force from ${formatDay(next.effectiveFrom, today)}`
        : `; version ${next.version} is a draft`,
    )
    .join('')
