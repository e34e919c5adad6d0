import { describe, expect, it } from 'vitest'
import { can } from '../../../server/domain/access/permissions.ts'
import { formatNextCeremony } from '../../../web/domain/ceremonies/format-ceremony.ts'
import { formatSheet, formatStanding } from '../../../web/domain/sheets/format-sheet.ts'
import { formatCall } from '../../../web/domain/standards/format-call.ts'
import { ownAddress } from '../../../web/features/accounts/sign-in/own-address.ts'
import { formatRetestState } from '../../../web/features/readiness/retests/format-retest-state.ts'
import {
  formatBacklog,
  formatWhatIsReady,
  tallyRetests,
} from '../../../web/features/readiness/retests/format-retests.ts'
import { formatHeld, formatWhatToDo, lasting } from '../../../web/features/sheets/held/format-held.ts'
import { formatRuleOfStandard, formatVersion } from '../../../web/features/standards/format-standard.ts'
import { trialNotes } from '../../../web/parts/sheets/trial-notes.ts'
import { body, id, result, retest, sheet, standing } from './given.ts'

const TODAY = '2026-11-25'

describe('the next ceremony', () => {
  it('says what comes next', () => {
    const ceremony = {
      cancelReason: null,
      reportsAt: '2026-12-05T14:00:00Z',
      id: id(1),
      title: 'Evening Retreat',
      place: '',
      unitId: id(2),
      startsAt: '',
      endsAt: '',
      day: '2026-12-05',
      posts: 11,
      filled: 9,
    }
    expect(formatNextCeremony(ceremony, TODAY)).toBe(
      'Next: Evening Retreat, Saturday 5 December; two of eleven posts are not filled.',
    )
    expect(formatNextCeremony({ ...ceremony, filled: 11, day: TODAY }, TODAY)).toBe(
      'Next: Evening Retreat, today; all eleven posts are filled.',
    )
    expect(formatNextCeremony(undefined, TODAY)).toBe('')
  })
})

describe('retests', () => {
  const backlog = [
    retest({ earliest: '2026-11-20', due: '2026-12-17' }),
    retest({ earliest: '2026-11-26', due: '2026-12-19' }),
    retest({ earliest: '2026-11-01', due: '2026-11-24', pastDue: true, needsReview: true }),
  ]
  it('are counted by what can be done', () => {
    const early = retest({ earliest: '2026-11-30', needsReview: true })
    expect(tallyRetests([early], TODAY)).toMatchObject({ needReview: 1, waiting: 0, ready: 0 })
    expect(tallyRetests(backlog, TODAY)).toEqual({ open: 3, pastDue: 1, needReview: 1, waiting: 1, ready: 1 })
  })
  it('are said so', () => {
    const tally = tallyRetests(backlog, TODAY)
    expect(formatBacklog(tally, '')).toBe('Three retests are open; one of them is past due.')
    expect(formatWhatIsReady(tally, backlog, TODAY)).toBe(
      '1 can be taken now, 1 must wait some days yet and 1 needs a review first. Next due: CPL Amadi, by 17 Dec.',
    )
    expect(formatBacklog({ ...tally, open: 1, pastDue: 1 }, '2nd Platoon')).toBe(
      'One retest is open in 2nd Platoon, and it is past due.',
    )
    expect(formatBacklog({ ...tally, pastDue: 3 }, '')).toBe('Three retests are open; all are past due.')
    expect(formatBacklog({ ...tally, pastDue: 0 }, '')).toBe('Three retests are open; none is past due.')
    expect(formatBacklog(tallyRetests([], TODAY), '')).toBe('No retest is open.')
  })
  it('say where each one stands', () => {
    expect(backlog.map((one) => formatRetestState(one, TODAY))).toEqual([
      'open',
      'opens in 1 day',
      '1 day past due, review first: 1 NO-GO in a row',
    ])
  })
})

describe('held sheets', () => {
  const waivable = sheet({ violations: [{ rule: 'too-early', waivable: true, detail: '' }] })
  const never = sheet({ violations: [{ rule: 'grader-coached', waivable: false, detail: '' }] })
  it('are counted', () => {
    expect(formatHeld([waivable, never], false)).toBe('Two sheets wait for a decision.')
    expect(formatHeld([never], false)).toBe('One sheet waits for a decision.')
    expect(formatHeld([waivable, never], true)).toBe('More than two sheets wait for a decision.')
    expect(formatHeld([], false)).toBe('No sheet waits for a decision.')
  })
  it('say which cannot be counted', () => {
    expect([lasting(waivable), lasting(never)]).toEqual([false, true])
    expect(formatWhatToDo([waivable])).toBe(
      'Count one with a reason, which waives what it breaks, or reject it with a reason.',
    )
    expect(formatWhatToDo([waivable, never])).toMatch(/One breaks a condition nobody can waive: reject it, or amend/)
  })
})

describe('a sheet', () => {
  const say = (part: Parameters<typeof result>[0], purpose: 'test' | 'practice' = 'test') =>
    formatSheet('CPL Amadi', '2026-11-17', result(part), purpose, TODAY)
  it('says how it came out', () => {
    expect(say({})).toBe('CPL Amadi was NO-GO on Tuesday 17 November, one measure short.')
    expect(say({ outcome: 'GO', go: 12, minors: [] })).toBe(
      'CPL Amadi was GO on Tuesday 17 November, with 12 of 0 measures.',
    )
    expect(say({ ending: 'stopped' })).toBe(
      'CPL Amadi’s test on Tuesday 17 November was stopped by a major measure: NO-GO.',
    )
    expect(say({ ending: 'void', outcome: 'VOID' })).toBe(
      'CPL Amadi’s test on Tuesday 17 November was void; it is no attempt.',
    )
    expect(say({ ending: 'recorded', outcome: 'GO' })).toBe(
      'CPL Amadi was GO on Tuesday 17 November; only the outcome is on record.',
    )
    expect(say({ ending: 'stopped' }, 'practice')).toMatch(/practice sheet/)
  })
  it('says what became of it', () => {
    const standingOf = (part: object) =>
      formatStanding({
        state: 'counted',
        purpose: 'test',
        result: result(),
        violations: [],
        flags: [],
        arrivedLate: false,
        ...part,
      })
    expect(standingOf({})).toBe('Counted as attempt 2.')
    expect(standingOf({ arrivedLate: true })).toBe(
      'Counted as attempt 2. It came in after a later sheet of the same soldier.',
    )
    expect(standingOf({ flags: ['overlap'] })).toBe('Counted as attempt 2. It is flagged: overlap.')
    expect(standingOf({ state: 'rejected' })).toMatch(/^The training office rejected it/)
    expect(standingOf({ state: 'held', violations: [{ rule: 'no-sponsor', waivable: true, detail: '' }] })).toMatch(
      /one condition of a test not met/,
    )
    expect(standingOf({ purpose: 'practice' })).toMatch(/^A practice sheet/)
  })
  it('lists faults by trial and readings by gauge', () => {
    const readings = [
      { trial: 2, gauge: 'tip-height', value: '6.5', override: null },
      { trial: 1, gauge: 'tip-height', value: '5', override: null },
      { trial: 3, gauge: 'tip-height', value: '3', override: 'ground uneven' },
    ]
    const minors = [{ code: 'parade-rest', trials: [], faults: [], readings }]
    const faults = [
      { trial: 2, code: 'feet-off' },
      { trial: 2, code: 'tip-high' },
    ]
    const marked = { code: 'parade-rest', title: 'Parade rest', outcome: null, marks: [], trials: 3, faults }
    expect(trialNotes(standing, body({ minors }), marked)).toEqual([
      { lead: 'trial 2', text: 'Distance between the feet wrong; Tip over the band' },
      {
        lead: 'Height of the tip above the ground, 4 to 6 in:',
        text: '5 (1), 6.5 high (2), 3 low (3), the mark stands: ground uneven',
      },
    ])
  })
})

describe('a standard', () => {
  it('says its rule, with the minimum worked out', () => {
    // 80 percent of 13 is 10.4, so eleven.
    expect(formatRuleOfStandard(standing)).toBe(
      'GO with all two major measures GO and 11 of 13 minor measures GO; a minor measure is GO with two of three trials correct.',
    )
  })
  it('says where a version stands', () => {
    const second = { ...standing, id: id(2), version: 2, effectiveFrom: '2026-06-01' }
    expect(formatVersion(standing, [standing], TODAY)).toBe('in force since 1 Jan 2023')
    expect(formatVersion(standing, [standing, second], TODAY)).toBe('followed by version 2 on 1 Jun')
    expect(formatVersion({ ...second, effectiveFrom: '2027-06-01' }, [standing], TODAY)).toBe(
      'in force from 1 Jun 2027',
    )
    expect(formatVersion({ ...second, publishedAt: null }, [standing], TODAY)).toBe('a draft; it is not in force')
  })
  it('says a call in the words of the arm', () => {
    const call = standing.calls[0]!
    expect(formatCall(call, 'saber')).toBe('Draw, SABER')
    expect(formatCall(call)).toBe('Draw, SWORD / SABER')
  })
})

describe('doors', () => {
  it('lead only to pages of ours after signing in', () => {
    expect(
      ['/stand?asOf=2026-12-05', null, 'https://example.org', '//example.org', '/\\example.org'].map(ownAddress),
    ).toEqual(['/stand?asOf=2026-12-05', '/', '/', '/', '/'])
  })
  it('are shown to whom they are for', () => {
    expect(can({ roles: ['office'] }, 'decide-sheets')).toBe(true)
    expect(can({ roles: ['leader', 'grader'] }, 'decide-sheets')).toBe(false)
    expect(can({ roles: ['grader'] }, 'enter-sheets')).toBe(true)
    expect(can({ roles: [] }, 'see-findings')).toBe(false)
  })
})
