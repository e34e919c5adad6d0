import fc from 'fast-check'
import { expect, test } from 'vitest'
import './fixed-seed.ts'
import { brierScore } from '../../../../server/domain/statistics/calibration/brier-score.ts'
import { logLoss } from '../../../../server/domain/statistics/calibration/log-loss.ts'

const forecast = fc.record({ probability: fc.integer({ min: 0, max: 20 }).map((n) => n / 20), happened: fc.boolean() })
const forecasts = fc.array(forecast, { minLength: 1, maxLength: 80 })

test('scores lie in their range and do not depend on which outcome is called the event', () => {
  fc.assert(
    fc.property(forecasts, (list) => {
      const turned = list.map(({ probability, happened }) => ({ probability: 1 - probability, happened: !happened }))
      const score = brierScore(list)!
      expect(score >= 0 && score <= 1).toBe(true)
      expect(brierScore(turned)).toBeCloseTo(score, 12)
      const [loss, turnedLoss] = [logLoss(list), logLoss(turned)]
      expect(turnedLoss.kind).toBe(loss.kind)
      if (loss.kind === 'loss' && turnedLoss.kind === 'loss') expect(turnedLoss.value).toBeCloseTo(loss.value, 12)
    }),
  )
})

test('saying the true share always is the best constant forecast', () => {
  const outcomes = [true, true, true, false]
  const score = (probability: number) => brierScore(outcomes.map((happened) => ({ probability, happened })))!
  for (const other of [0, 0.5, 0.7, 0.8, 1]) expect(score(0.75)).toBeLessThan(score(other))
})
