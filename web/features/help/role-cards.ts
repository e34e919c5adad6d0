import type { Role } from '../../domain/accounts/roles.ts'

/** What somebody in a role does, in order, with the button or page that does it. */
export interface RoleCard {
  readonly role: Role
  readonly when: string
  readonly steps: readonly string[]
  /** What is easily got wrong. */
  readonly mind: readonly string[]
}

export const ROLE_CARDS: readonly RoleCard[] = [
  {
    role: 'grader',
    when: 'on a test day',
    steps: [
      'Before you walk out: sign in on your phone and open Desk. Wait for “Ready without a network.”',
      'Read the cautions aloud and tap “All of this is in place: open the day”.',
      'Beside the candidate tap Start. Look the uniform over; then tap “All in order: start the test”.',
      'Give each call as the phone shows it: preparatory command, look; “stand by”; preparatory command, command of execution, look.',
      'Tap Correct or Incorrect, and the fault you saw. Type a reading where one is asked for. Undo takes back the last mark.',
      'A major NO-GO ends the test; the phone says so. Anything unsafe: tap Cease, and say it.',
      'At the end read the summary and tap “I graded this: close the sheet”. Debrief the candidate from the page that follows.',
      'Back in the network the sheets go out by themselves. The desk says when every closed sheet is sent.',
    ],
    mind: [
      'You never grade whom you coach or have coached; the office books somebody else.',
      'A mistake on a closed sheet is amended by the training office, not by a second sheet.',
      'A test broken off for weather, injury or safety: End the test void, with the reason.',
    ],
  },
  {
    role: 'sponsor',
    when: 'in the weeks before a test',
    steps: [
      'Open Desk. The first line says with whom to drill what; candidates are in the order of their tests.',
      'Drill the measures of the list from the top: there the chance to pass rises most.',
      'Tap Study sheet for calls, checks, tolerances and faults on one page; print it, or open it without a network.',
      'Tap Practise and mark a round as a grader would. It counts for nothing but shows what got better.',
      'Write down what you saw under Notes on the candidate’s page, so that the next sponsor reads it.',
      'The day before: open Day of the test from the candidate’s page. It says when, where, and what to bring.',
    ],
    mind: [
      'You must be certified yourself on the day of the test; your desk says until when you are.',
      'A forecast says what to drill. It is no verdict on your candidate, and a grader does not see it.',
      'Whatever you carry is drilled at the unit’s own safety distance, edged weapons above all. On “cease” all stop.',
    ],
  },
  {
    role: 'leader',
    when: 'from planning a ceremony to falling in',
    steps: [
      'Open Ceremonies and choose Plan a ceremony: day, times, place, posts with grade, height and what is carried.',
      'On its page each short post has a proposal with the reason. Take one, or all of them at once.',
      'Where it stays short, the page names the posts that compete and whose test would end it; book that test there.',
      'Name alternates on the same page.',
      'Open Who can stand, choose the day, and look again in the week before: status is as of that day.',
      'Print the roster and the stand list.',
    ],
    mind: [
      'Whoever may not stand can still be named; the post counts as not filled and says why.',
      'Soldiers of another unit are asked for through their leader.',
      'A certification can lapse between planning and the day. The desk names each that will.',
    ],
  },
  {
    role: 'office',
    when: 'every week',
    steps: [
      'Open Held. Read why each sheet is held, then Count it or Reject it, with the reason.',
      'Open Retests. What can be placed is proposed: choose period and unit, Plan this, look it through, book it.',
      'Open Test days: add days and slots, see who is booked, call off or rebook.',
      'Sheets on paper: Enter a sheet, fault by fault as the paper has them by number.',
      'Open Amendments and confirm or refuse what another person proposed.',
      'Soldiers who come, go or move: People, or Import a file for many at once.',
      'Once a month read Findings: what fails most, and whether graders agree.',
    ],
    mind: [
      'Whoever entered or proposed a change never decides about it; a second person of the office does, or a commander.',
      'Nothing about yourself or whom you coach: ask another person of the office.',
      'A sheet is never deleted. A wrong one is amended or rejected, and stays on record.',
    ],
  },
  {
    role: 'commander',
    when: 'before a date that matters',
    steps: [
      'Open Desk: who is certified now, what lapses, which ceremonies are short.',
      'Open Ready on a day, choose the date: how many will be certified, from how many to how many, and whether that is enough.',
      'Try what would change it: a test day more, fewer slots, a grader away.',
      'Suspend a soldier under Suspensions, with the reason; lift it there.',
      'Where the terms ask for it, sign what was earned under To sign; extend a certification on the page of the soldier.',
      'In a small unit you are the second person: Amendments shows what waits for you.',
    ],
    mind: [
      'A forecast is an expectation with its limits, not a promise; the page says how well the last twelve held.',
      'Figures by sponsor or grader are a question to ask, no verdict on anybody.',
    ],
  },
  {
    role: 'administrator',
    when: 'when people come and go, and once a week',
    steps: [
      'Open Accounts: make an account, choose roles, unit and soldier, and hand over the one-time link.',
      'Somebody forgot the password: open the account and make a new link.',
      'Somebody leaves: switch the account off. What they did stays on record under their name.',
      'Open Backup: see when the last good one was made, and keep a copy on another machine.',
      'Open Record and verify it.',
    ],
    mind: ['You see no grades, and need none.', 'Keep two administrators, so that one can let the other in again.'],
  },
  {
    role: 'soldier',
    when: 'at any time',
    steps: [
      'Open Desk. The first sentence says what you may stand with, and until when.',
      'Your next test: day, time, place, and what to bring.',
      'Study sheet: how the test runs and what it looks for, with your own faults beside it.',
      'You think a result is wrong: open the sheet and Appeal, while the days for it last.',
    ],
    mind: [
      'Nobody but those who must sees your record. Under your own page you can take out all that is held about you.',
    ],
  },
]
