import type { SoldierDetail } from '#contract/soldiers/soldiers.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { listed } from '../../words/format-number.ts'

/** What has to be there on the day, a line each: roster number, uniform, arm, sponsor. */
export const whatToBring = (
  soldier: Pick<SoldierDetail, 'rosterNumber' | 'arms' | 'sponsors'>,
  { arms }: Pick<Standard, 'arms'>,
  day: string,
): string[] => {
  const own = arms.filter((arm) => soldier.arms.includes(arm))
  const sponsors = soldier.sponsors.filter(({ from, to }) => from <= day && (to === null || day <= to))
  return [
    `Roster number ${soldier.rosterNumber}, as it goes on the grade sheet.`,
    'The uniform the conditions name, complete and serviceable; a wrong one is NO-GO before the first call.',
    arms.length === 0
      ? 'The equipment the conditions name, serviceable.'
      : own.length > 0
        ? `${listed(own.map(capital), 'or')}, serviceable, with all that belongs to it.`
        : `An arm of this test (${listed(arms, 'or')}): none of them is on record for this soldier. Speak to the training office.`,
    sponsors.length > 0
      ? `The sponsor, present and certified that day: ${listed(
          sponsors.map(({ sponsorName }) => sponsorName),
          'or',
        )}.`
      : 'A sponsor: none is on record for that day, and the sheet would be held. Speak to the training office.',
  ]
}

const capital = (arm: string): string => arm.charAt(0).toUpperCase() + arm.slice(1)
