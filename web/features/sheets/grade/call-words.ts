import type { Standard } from '#contract/standards/standards.ts'
import type { ScoredStandard } from '#scoring/types.ts'
import { formatCall } from '../../../domain/standards/format-call.ts'

type Call = Standard['calls'][number]

/** One line a grader says or does, and what to look at while it is carried out. */
export interface CallLine {
  /** `command` lines are read aloud; the last part of them, where there is one, is the command of execution. */
  readonly kind: 'command' | 'stand by'
  readonly text: string
  readonly execution: string
  readonly look: readonly string[]
}

/**
 * What is called, line by line: the preparatory command and what to check at it, "stand by", the preparatory command again
 * with the command of execution, and what to check then. Checks of another arm are left out.
 */
export const callLines = (call: Call, minor: Standard['minors'][number], arm: string | null): CallLine[] => {
  const look = (checks: Standard['minors'][number]['checks']['preparatory']) =>
    checks.filter((check) => check.arm === undefined || check.arm === arm).map(({ title }) => title)
  const preparatory = call.preparatory ?? ''
  const whole = formatCall(call, arm ?? undefined)
  const execution = preparatory === '' ? whole : whole.slice(preparatory.length).replace(/^, /, '')
  const atExecution: CallLine = {
    kind: 'command',
    text: execution === '' ? whole || minor.title : preparatory,
    execution,
    look: look(minor.checks.execution),
  }
  if (preparatory === '' || execution === '') {
    return [{ ...atExecution, look: [...look(minor.checks.preparatory), ...atExecution.look] }]
  }
  return [
    { kind: 'command', text: preparatory, execution: '', look: look(minor.checks.preparatory) },
    { kind: 'stand by', text: 'stand by', execution: '', look: [] },
    atExecution,
  ]
}

/** Where a call stands: "Call 21 of 39 · from order". */
export const formatWhere = (calls: readonly Call[], at: number): string => {
  const call = calls[at]
  return call ? `Call ${at + 1} of ${calls.length}${call.from ? ` · from ${call.from}` : ''}` : ''
}

/** "Parade rest, trial 2 of 3". */
export const formatTrial = (standard: Standard, calls: readonly Call[], at: number): string => {
  const call = calls[at]
  if (!call) return ''
  const title = standard.minors.find(({ code }) => code === call.measure)?.title ?? call.measure
  return `${title}, trial ${call.trial} of ${standard.rule.trials}`
}

/** A call for somebody who hears the page. */
export const formatCallAloud = (standard: Standard, calls: readonly Call[], at: number): string =>
  at < calls.length
    ? `${formatWhere(calls, at)}. ${formatTrial(standard, calls, at)}.`
    : 'All calls are behind. Look the sheet over and close it.'

/** The calls of a standard with their words; where it gives no order, each measure is called its trials running, by its title. */
export const callsToShow = (standard: Standard, scored: ScoredStandard): Standard['calls'] =>
  standard.calls.length > 0 ? standard.calls : scored.calls.map(({ measure, trial }) => ({ measure, trial }))
