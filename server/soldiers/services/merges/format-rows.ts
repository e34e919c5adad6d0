/** What rows of a table are to the soldier named in a column. */
const WORDS: Record<string, string> = {
  'sheet.candidate_id': 'grade sheets as candidate',
  'sheet.sponsor_id': 'grade sheets as sponsor',
  'sheet.grader_id': 'grade sheets as grader',
  'sponsorship.candidate_id': 'sponsors',
  'sponsorship.sponsor_id': 'candidates coached',
  'carried_award.soldier_id': 'carried-over awards',
  'award_decision.soldier_id': 'decisions on certifications',
  'award_extension.soldier_id': 'extensions of certifications',
  'booking.candidate_id': 'bookings as candidate',
  'booking.grader_id': 'bookings as grader',
  'booking.second_grader_id': 'bookings as second grader',
  'alternate.soldier_id': 'ceremonies as alternate',
  'coaching_note.candidate_id': 'coaching notes',
  'practice.candidate_id': 'practice of chosen measures',
  'due_move.soldier_id': 'moved due days',
  'notice.to_id': 'notices',
  'notice.about_id': 'notices about the soldier',
  'running_test.candidate_id': 'tests that run now, as candidate',
  'running_test.grader_id': 'tests that run now, as grader',
  'slot.grader_id': 'slots as grader',
  'post.soldier_id': 'posts in ceremonies',
  'plan_name.soldier_id': 'names that a plan gave',
  'plan_name.before_id': 'names that a plan replaced',
  'account.soldier_id': 'the account',
  'soldier_merge.kept_id': 'earlier merges',
}

/** "grade sheets as candidate"; what has no words of its own goes by its table. */
export const formatRows = (table: string, column?: string): string =>
  WORDS[`${table}.${column}`] ?? `${table.replaceAll('_', ' ')}s`
