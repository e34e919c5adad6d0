import { UNITS } from './establishment.ts'
import type { PlannedAccount } from './plan.ts'
import { type Person, placeOn, sponsorsOn } from './program/person.ts'
import type { Program } from './program/program.ts'
import { isWantedOn, retestsOn, standingOn, type Training } from './program/training.ts'

/**
 * Whom the demo accounts belong to: those whose pages show most. The training office has two accounts, which come first,
 * for what changes an outcome takes a second person. Throws an Error where the demo has nobody to show.
 */
export function chooseAccounts(program: Program): PlannedAccount[] {
  const platoons = UNITS.filter(({ kind }) => kind === 'platoon').map(({ key }) => key)
  const platoon = best(platoons, (key) => variety(program, key))
  const leader = presentWith(program, (one, unitKey) => one.duty === 'platoon leader' && unitKey === platoon)
  const sponsor = best(program.people, (one) => {
    const candidates = candidatesOf(program, one)
    return 5 * Math.min(4, candidates.length) + sum(candidates.map((each) => strips(program, each)))
  })
  const candidate = best(candidatesOf(program, sponsor), (one) => strips(program, one))
  const grader = best(
    program.people.filter((one) => placeOn(one, program.today) !== null),
    (one) => gradedBy(program, one),
  )
  return [
    { name: 'office', role: 'office', soldier: null, unitKey: null },
    { name: 'deputy', role: 'office', soldier: null, unitKey: null },
    { name: 'leader', role: 'leader', soldier: leader.key, unitKey: platoon },
    { name: 'sponsor', role: 'sponsor', soldier: sponsor.key, unitKey: null },
    { name: 'grader', role: 'grader', soldier: grader.key, unitKey: null },
    { name: 'commander', role: 'commander', soldier: null, unitKey: 'battalion' },
    { name: 'admin', role: 'administrator', soldier: null, unitKey: null },
    { name: 'soldier', role: 'soldier', soldier: candidate.key, unitKey: null },
  ]
}

/** The item with the highest score; of equal ones the first. */
function best<Item>(items: readonly Item[], score: (item: Item) => number): Item {
  const scores = items.map(score)
  const found = items[scores.indexOf(Math.max(...scores))]
  if (found === undefined) throw new Error('The demo has nobody to give an account to.')
  return found
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0)

function presentWith({ people, today }: Program, test: (person: Person, unitKey: string) => boolean): Person {
  const found = people.find((one) => {
    const place = placeOn(one, today)
    return place !== null && test(one, place.unitId)
  })
  if (!found) throw new Error('The demo has nobody in this duty.')
  return found
}

/** How much there is to see of a platoon: the statuses that occur, and retests waiting, some of them past due. */
function variety(program: Program, platoon: string): number {
  const { people, today } = program
  const trainings = people
    .filter((one) => placeOn(one, today)?.unitId === platoon)
    .flatMap((one) => wanted(program, one))
  const statuses = new Set(trainings.map((one) => standingOn(one, today).status))
  const retests = trainings.flatMap((one) => retestsOn(one, today))
  const pastDue = retests.some((one) => one.pastDue) ? 1 : 0
  return 10 * statuses.size + 3 * pastDue + Math.min(4, retests.length)
}

const wanted = ({ trainings, today }: Program, person: Person): Training[] =>
  (trainings.get(person) ?? []).filter((training) => isWantedOn(training, today))

function candidatesOf({ people, today }: Program, sponsor: Person): Person[] {
  if (placeOn(sponsor, today) === null) return []
  return people.filter((one) => placeOn(one, today) !== null && sponsorsOn(one, today).includes(sponsor))
}

/** How much a candidate's page shows: attempts, and failed ones twice; little of who is certified. */
function strips(program: Program, candidate: Person): number {
  const scores = wanted(program, candidate).map((training) => {
    const { attempts } = training.history
    const failed = attempts.filter(({ outcome }) => outcome === 'NO-GO').length
    const isCertified = standingOn(training, program.today).status === 'certified'
    return Math.min(8, attempts.length + failed) / (isCertified ? 4 : 1)
  })
  return sum(scores)
}

const gradedBy = ({ events }: Program, grader: Person): number =>
  events.filter((event) => event.kind === 'sheet' && event.body.graderId === grader.key).length
