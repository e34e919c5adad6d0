import type { Errand } from '../api/may.ts'
import { paths } from '../paths.ts'

interface PageErrand {
  path: string
  /** What the page is called. */
  title: string
  errand: Errand
}

/** The pages that are not for everybody, by address, the narrower address first. Any other asks the server whom it is for. */
export const PAGE_ERRANDS: readonly PageErrand[] = [
  { path: paths.ahead, title: 'Ready on a day', errand: 'see grades' },
  { path: paths.stand, title: 'Who can stand', errand: 'see grades' },
  { path: paths.newCeremony, title: 'Plan a ceremony', errand: 'plan ceremonies' },
  { path: paths.ceremonyEdit, title: 'Change a ceremony', errand: 'plan ceremonies' },
  { path: paths.ceremonies, title: 'Ceremonies', errand: 'see grades' },
  { path: paths.ceremony, title: 'Ceremony', errand: 'see grades' },
  { path: paths.roster, title: 'Roster', errand: 'see grades' },
  { path: paths.candidates, title: 'Candidates', errand: 'see grades' },
  { path: paths.candidate, title: 'Candidate', errand: 'see grades' },
  { path: paths.candidateDay, title: 'Day of the test', errand: 'see grades' },
  { path: paths.certificates, title: 'Certificates', errand: 'manage people' },
  { path: paths.sheet, title: 'Grade sheet', errand: 'see grades' },
  { path: paths.debrief, title: 'Debrief', errand: 'see grades' },
  { path: paths.enter, title: 'Enter a sheet', errand: 'enter sheets' },
  { path: paths.held, title: 'Held sheets', errand: 'decide sheets' },
  { path: paths.contested, title: 'Amendments', errand: 'confirm amendments' },
  { path: paths.twiceGraded, title: 'Graded twice', errand: 'decide sheets' },
  { path: paths.record, title: 'Record', errand: 'read the record' },
  { path: paths.suspensions, title: 'Suspensions', errand: 'suspend' },
  { path: paths.retestPlan, title: 'Retest plan', errand: 'plan test days' },
  { path: paths.review, title: 'Review', errand: 'see grades' },
  { path: paths.retests, title: 'Retests', errand: 'see grades' },
  { path: paths.testDays, title: 'Test days', errand: 'see grades' },
  { path: paths.testDay, title: 'Test day', errand: 'see grades' },
  { path: paths.line, title: 'On the line', errand: 'see grades' },
  { path: '/findings/*', title: 'Findings', errand: 'see findings' },
  { path: paths.firstSteps, title: 'First steps', errand: 'manage people' },
  { path: paths.units, title: 'Units', errand: 'manage people' },
  { path: paths.people, title: 'People', errand: 'see people' },
  { path: paths.requirements, title: 'Who must hold what', errand: 'see people' },
  { path: paths.removePerson, title: 'Remove personal data', errand: 'manage people' },
  { path: paths.person, title: 'Soldier', errand: 'see people' },
  { path: paths.draft, title: 'Draft of a standard', errand: 'manage standards' },
  { path: '/import/*?', title: 'Import a file', errand: 'manage people' },
  { path: paths.accounts, title: 'Accounts', errand: 'manage accounts' },
  { path: paths.backup, title: 'Backup', errand: 'keep backups' },
]
