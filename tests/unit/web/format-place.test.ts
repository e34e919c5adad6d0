import { describe, expect, it } from 'vitest'
import { formatPlace } from '../../../web/domain/standards/format-place.ts'

const standard = {
  title: '',
  minors: [{ title: 'Draw', faults: [{ title: 'Slow' }, { title: '' }], checks: { preparatory: ['The grip'] } }],
  gauges: [{ title: 'Tip', min: 'x' }],
  calls: [{}, { measure: 'draw', finish: ['Order arms'], execution: '' }],
  rule: { needed: 4 },
}

describe('where something is in a standard', () => {
  it.each([
    ['', ''],
    ['/title', 'Title'],
    ['/minors', 'Minor measure'],
    ['/minors/0', 'Minor measure 1, Draw'],
    ['/minors/0/faults/1/title', 'Minor measure 1, Draw, fault 2, title'],
    ['/minors/0/checks/preparatory/0', 'Minor measure 1, Draw, check at the preparatory command 1'],
    ['/minors/7', 'Minor measure 8'],
    ['/gauges/0/min', 'Gauge 1, Tip, lowest'],
    ['/calls/1/execution', 'Call 2, command of execution'],
    ['/calls/1/finish/0', 'Call 2, finishing command 1'],
    ['/rule/needed', 'Rule, correct trials needed'],
    ['/effectiveFrom', 'In force from'],
  ])('%s is "%s"', (pointer, said) => {
    expect(formatPlace(standard, pointer)).toBe(said)
  })
})
