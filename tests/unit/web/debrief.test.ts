import { describe, expect, it } from 'vitest'
import { drillFirst } from '../../../web/domain/sheets/drill-first.ts'
import { formatRetest } from '../../../web/domain/sheets/format-debrief.ts'

const major = (code: string, mark: 'GO' | 'NO-GO') => ({ code, mark, atCall: 3, faults: [], note: null })
const minor = (code: string, outcome: 'GO' | 'NO-GO' | 'not tested', correct: number, incorrect: number) => ({
  code,
  outcome,
  correct,
  incorrect,
})

describe('what to drill by one sheet', () => {
  it('puts majors first, then what had the fewest correct trials, and never calls untested failed', () => {
    const minors = [
      minor('draw', 'GO', 2, 1),
      minor('return', 'NO-GO', 1, 2),
      minor('present', 'NO-GO', 0, 2),
      minor('guard', 'GO', 3, 0),
      minor('order', 'not tested', 1, 1),
      minor('carry', 'NO-GO', 0, 3),
    ]
    const majors = [major('uniform', 'GO'), major('composure', 'NO-GO')]
    expect(drillFirst({ majors }, { minors })).toEqual({
      first: ['composure', 'present', 'carry', 'return'],
      next: ['draw'],
      unknown: ['order'],
    })
  })
})

describe('the retest on a debrief', () => {
  const sheet = (outcome: 'GO' | 'NO-GO' | 'VOID', state: 'counted' | 'held' | 'rejected' = 'counted') => ({
    state,
    day: '2026-03-02',
    result: { ending: 'completed' as const, outcome, minimum: 11, go: 9, noGo: 4, minors: [], attempts: [] },
  })
  const open = { certification: 'sword', earliest: '2026-03-09', due: '2026-04-01', needsReview: false }

  it('says the days once where two certifications ask for the same, and what comes first', () => {
    const lines = formatRetest(sheet('NO-GO'), [open, { ...open, certification: 'saber' }], '2026-03-02')
    expect(lines).toEqual(['From Monday 9 March, at the latest on Wednesday 1 April.'])
    expect(formatRetest(sheet('NO-GO'), [{ ...open, needsReview: true }], '2026-03-02')[0]).toContain('review')
  })

  it('promises nothing where the sheet does not count', () => {
    expect(formatRetest(sheet('NO-GO', 'held'), [], '2026-03-02')[0]).toContain('held')
    expect(formatRetest(sheet('VOID'), [], '2026-03-02')[0]).toContain('no attempt')
    expect(formatRetest(sheet('GO'), [], '2026-03-02')).toEqual(['None: it was GO.'])
    expect(formatRetest(sheet('NO-GO'), [], '2026-03-02')[0]).toContain('None is open')
  })
})
