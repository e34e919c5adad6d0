/** A word of the trade or of Reviewstand, and what it means here. */
export interface Entry {
  readonly word: string
  readonly meaning: string
}

/** In the order of the alphabet. */
export const GLOSSARY: readonly Entry[] = [
  {
    word: 'Alternate',
    meaning: 'A soldier who stands by for a ceremony and takes a post when somebody named for it drops out.',
  },
  {
    word: 'Amendment',
    meaning:
      'New content for a sheet that is closed. Where it changes what counts, a second person confirms it first; the sheet as it was stays on record.',
  },
  {
    word: 'Appeal',
    meaning: 'A candidate’s word against a result, within the days the unit allows. The office decides and says why.',
  },
  {
    word: 'Approval',
    meaning:
      'A commander’s signature under a certification, where its terms ask for one. Until then it awaits approval and nobody may stand by it.',
  },
  {
    word: 'Attempt',
    meaning: 'One test of a candidate in a standard: the first ever, a retest after a NO-GO, or a renewal.',
  },
  {
    word: 'Authenticator app',
    meaning: 'An app on one’s phone that shows a new code of six digits every thirty seconds, as a second factor.',
  },
  { word: 'Booking', meaning: 'A slot of a test day for one candidate, one standard and one grader.' },
  { word: 'Candidate', meaning: 'A soldier who is to be tested, or was.' },
  { word: 'Ceremony', meaning: 'An occasion in front of the public, with a day, a place, and posts to fill.' },
  {
    word: 'Certification',
    meaning:
      'What a soldier earns by passing every standard it requires. It holds for a time, and a status is always as of a day.',
  },
  {
    word: 'Command of execution',
    meaning: 'The second part of a command, on which the movement is made: “ARMS” in “Present, ARMS”.',
  },
  {
    word: 'Extension',
    meaning:
      'Days that a commander adds to the last day of one certification, for a deployment, an injury or another reason, as far as its terms allow.',
  },
  { word: 'Fault', meaning: 'A named way to do a measure wrong, noted on the trial it was seen in.' },
  {
    word: 'Forecast',
    meaning:
      'How many of ten such candidates pass, from the record of all and the candidate’s own. It says what to drill; it is no finding about anybody.',
  },
  { word: 'Gauge', meaning: 'Something that is measured: a height, an angle, a distance, with its tolerance.' },
  { word: 'GO, NO-GO', meaning: 'The two marks of a measure, and the two outcomes of a test.' },
  { word: 'Grade sheet', meaning: 'What a grader marks on one test. Once closed it is amended, never edited.' },
  { word: 'Grader', meaning: 'Who calls the commands and marks them. Nobody grades whom they coached.' },
  {
    word: 'Held',
    meaning:
      'A sheet that breaks a condition, kept for the training office to count or reject. The test took place and is not thrown away.',
  },
  {
    word: 'Lapsed',
    meaning: 'A certification that was earned and whose time is over. The soldier may not stand with it until renewed.',
  },
  {
    word: 'Major measure',
    meaning: 'One that must be GO. A NO-GO in it ends the test at once.',
  },
  { word: 'Minor measure', meaning: 'One that is tried several times and is GO with enough of them correct.' },
  {
    word: 'Not reached',
    meaning: 'A measure that a test which ended early did not come to. It is never counted as failed.',
  },
  {
    word: 'Part way',
    meaning: 'Some of the standards that a certification requires are passed and in force, not all of them.',
  },
  {
    word: 'Passkey',
    meaning:
      'A key that a phone, a computer or a small device keeps and opens by fingerprint, face or PIN: a second factor, or instead of the password.',
  },
  {
    word: 'Post',
    meaning: 'A place in a ceremony that needs a certified soldier, with an arm or a height where it matters.',
  },
  {
    word: 'Practice',
    meaning: 'A sheet that a sponsor marks to drill. It never counts for status or figures of tests.',
  },
  {
    word: 'Preparatory command',
    meaning: 'The first part of a command, which says what follows: “Present” in “Present, ARMS”.',
  },
  { word: 'Reading', meaning: 'One value of a gauge, taken on one trial.' },
  {
    word: 'Record',
    meaning:
      'Every change there ever was, one after the other, each sealed with the one before, so that none can be altered unseen.',
  },
  {
    word: 'Recovery code',
    meaning: 'One of ten codes on paper, each good once, instead of a phone that is lost.',
  },
  { word: 'Renewal', meaning: 'A test of somebody who is certified, or was, taken to stay so.' },
  {
    word: 'Retest',
    meaning: 'The test that follows a NO-GO. It has an earliest day, and a day by which it is due.',
  },
  {
    word: 'Second factor',
    meaning:
      'What signing in takes beside the password: a code of an authenticator app, a passkey, or a recovery code.',
  },
  {
    word: 'Second grader',
    meaning: 'Who marks the same attempt without seeing the first sheet, to show how far two graders agree.',
  },
  { word: 'Sponsor', meaning: 'A certified soldier who coaches a candidate.' },
  {
    word: 'Standard',
    meaning:
      'The definition of one test: task, conditions, calls, measures, and what it takes to pass. Its versions are kept for ever.',
  },
  {
    word: 'Suspension',
    meaning: 'From a day until it is lifted a soldier may not stand, whatever certifications are in force.',
  },
  { word: 'Terms', meaning: 'How long a certification holds, and when a retest or a renewal may be taken and is due.' },
  { word: 'Test day', meaning: 'A day, place and unit with slots, graders and the candidates booked.' },
  { word: 'Trial', meaning: 'One execution of a command. Most measures have three.' },
  {
    word: 'Void',
    meaning:
      'A test that was broken off for a reason that is nobody’s mark, such as weather or injury. It decides nothing.',
  },
]
