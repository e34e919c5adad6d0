import type { RecordItem, RecordKind, RecordVerification } from '#contract/record/record.ts'
import { counted } from '../../words/say-number.ts'

/** What was done, in words, by the action's name in the record. */
const WORDS: Record<string, string> = {
  'sheet.submitted': 'Sent in a grade sheet',
  'sheet.amended': 'Amended a grade sheet',
  'sheet.amendment-proposed': 'Proposed an amendment',
  'sheet.amendment-decided': 'Decided on an amendment',
  'sheet.decided': 'Decided on a held sheet',
  'sheet.counted-by-itself': 'A held sheet counted by itself',
  'sheet.appealed': 'Appealed against a sheet',
  'sheet.appeal-decided': 'Decided on an appeal',
  'soldier.created': 'Added a soldier to the roster',
  'soldier.changed': 'Changed a soldier’s unit, grade or arms',
  'soldier.change-corrected': 'Corrected what was entered about a soldier',
  'soldier.change-removed': 'Took back what was entered about a soldier',
  'soldier.names-corrected': 'Corrected a soldier’s number or names',
  'soldier.merged': 'Merged a soldier entered twice',
  'soldier.merge-undone': 'Took a merge of soldiers apart',
  'soldier.removed': 'Removed a soldier’s personal data',
  'record.chained-anew': 'Chained the record anew',
  'absence.added': 'Entered an absence',
  'absence.changed': 'Changed an absence',
  'absence.removed': 'Took back an absence',
  'sponsorship.added': 'Recorded a sponsor',
  'sponsorship.ended': 'Ended a sponsorship',
  'coaching-note.added': 'Wrote a coaching note',
  'coaching-note.changed': 'Changed a coaching note',
  'coaching-note.removed': 'Removed a coaching note',
  'coaching-note.restored': 'Brought a coaching note back',
  'appointment.added': 'Appointed a grader',
  'review.added': 'Recorded a review',
  'withdrawal.added': 'Withdrew a soldier from training',
  'award.carried-over': 'Carried over an award',
  'suspension.began': 'Suspended a certification',
  'suspension.lifted': 'Lifted a suspension',
  'standard.drafted': 'Drafted a standard',
  'standard.draft-changed': 'Changed a draft of a standard',
  'standard.draft-deleted': 'Deleted a draft of a standard',
  'standard.published': 'Published a standard',
  'certification.created': 'Created a certification',
  'certification.terms-changed': 'Changed the terms of a certification',
  'unit.created': 'Added a unit',
  'lists.added': 'Put new grades or arms in the lists',
  'lists.changed': 'Changed the lists of grades and arms',
  'ceremony.planned': 'Planned a ceremony',
  'ceremony.changed': 'Changed a ceremony',
  'ceremony.cancelled': 'Called a ceremony off',
  'ceremony.named': 'Named soldiers to posts',
  'ceremony.alternates-changed': 'Changed the alternates of a ceremony',
  'import.stored': 'Took in a file',
  'soldier.height-set': 'Entered a soldier’s height',
  'soldier.height-forgotten': 'Removed a soldier’s height',
  'appointment.ended': 'Ended a grader’s appointment',
  'booking.second-grader-set': 'Chose a second grader for a booking',
  'test-day.planned': 'Planned a test day',
  'booking.added': 'Booked a candidate',
  'booking.moved': 'Moved a booking',
  'booking.cancelled': 'Cancelled a booking',
  'booking.ended-by-itself': 'A booking that is not needed any more ended',
  'booking.stands-again': 'A booking that is needed again stands again',
  'booking.marked': 'Marked how a booking went',
  'booking.walk-in-added': 'Booked somebody who came without a booking',
  'test-day.changed': 'Changed a test day',
  'test-day.called-off': 'Called a test day off',
  'slots.added': 'Made slots',
  'slot.removed': 'Removed a slot',
  'slot.grader-changed': 'Changed who grades in a slot',
  'retest.due-moved': 'Moved the due day of a retest',
  'calendar.link-made': 'Made a calendar link',
  'calendar.link-revoked': 'Ended a calendar link',
  'session.opened': 'Signed in',
  'session.refused': 'Was refused at sign-in',
  'session.closed': 'Signed out',
  'session.ended': 'Signed out elsewhere',
  'session.all-ended': 'Signed out everywhere',
  'backup.begun': 'Began a backup',
  'backup.downloaded': 'Downloaded a backup',
  'soldier.extract-made': 'Took an extract of what is held about a soldier',
  'certificate.made': 'Made a certificate to print',
  'account.first-made': 'Made the first account',
  'account.invited': 'Invited somebody',
  'account.link-sent': 'Made a new link for an account',
  'account.link-printed': 'Printed a link for an account at the server',
  'account.password-chosen': 'Chose a password by a link',
  'account.password-changed': 'Changed the password',
  'account.reach-changed': 'Changed an account’s roles, soldier or unit',
  'account.disabled': 'Disabled an account',
  'account.enabled': 'Enabled an account',
}

/** "Amended a grade sheet"; an action without words of its own is spelled out. */
export const sayAction = (action: string): string => WORDS[action] ?? action.replace(/[.-]/g, ' ')

/** Kinds of changes by which the record is read, as the page names them. */
export const KIND_TITLES: Record<Exclude<RecordKind, 'sign-ins'>, string> = {
  sheets: 'Grade sheets',
  people: 'People and units',
  coaching: 'Sponsors and coaching notes',
  certifications: 'Awards, suspensions, retests',
  'test-days': 'Test days and bookings',
  ceremonies: 'Ceremonies',
  standards: 'Standards and terms',
  accounts: 'Accounts and calendar links',
  files: 'Files, backups, the record itself',
}

/** Who did it. */
export const sayAuthor = ({ accountName, emptied }: Pick<RecordItem, 'accountName' | 'emptied'>): string =>
  emptied.includes('who') ? 'removed' : (accountName ?? 'by itself')

/** What the chain says of itself. */
export const sayVerification = ({ whole, entries, problems }: RecordVerification): string =>
  whole
    ? `The record is whole: ${counted(entries, 'entry', 'entries')}, each following on the one before.`
    : `The record is not as it was written: ${counted(problems.length, 'place does', 'places do')} not fit.`
