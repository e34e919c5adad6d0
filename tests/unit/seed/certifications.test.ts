import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { certifications } from '../../../seed/catalogue/certifications.ts'
import { armsOf, BILLETS, type Grade } from '../../../seed/generate/establishment.ts'
import { CertificationBody } from '../../../server/contract/standards/certifications.ts'
import { StandardBody } from '../../../server/contract/standards/standards.ts'

const grades = new Set(BILLETS.map((billet) => billet.grade))
const carries = (grade: string, arms: readonly string[]) => armsOf(grade as Grade).some((arm) => arms.includes(arm))

test('saber, sword and rifle, for twelve months each, as the API takes them', () => {
  expect(certifications.map(({ code, validityMonths }) => [code, validityMonths])).toEqual([
    ['saber', 12],
    ['sword', 12],
    ['rifle', 12],
  ])
  for (const certification of certifications) expect(CertificationBody.parse(certification)).toEqual(certification)
})

test.each(certifications)(
  '$code rests on standards of the catalogue that allow its arm, in force by then',
  (certification) => {
    for (const code of certification.standards) {
      const file = new URL(`../../../server/standards/beginnings/${code}.json`, import.meta.url)
      const standard = StandardBody.parse(JSON.parse(readFileSync(file, 'utf8')))
      expect(standard.arms).toEqual(expect.arrayContaining(certification.arms))
      expect(standard.effectiveFrom <= certification.effectiveFrom).toBe(true)
    }
  },
)

test('whoever must hold a certification carries its arm, and no grade but the commander’s goes without one', () => {
  for (const { code, arms, requiredOf } of certifications) {
    for (const grade of requiredOf?.grades ?? []) expect(carries(grade, arms), `${code} of ${grade}`).toBe(true)
  }
  const required = new Set(certifications.flatMap((certification) => certification.requiredOf?.grades ?? []))
  expect([...grades].filter((grade) => !required.has(grade))).toEqual(['LTC'])
})
