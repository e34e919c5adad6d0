import type { Column, ColumnType, ImportKind } from './column.ts'

const column = (
  key: string,
  title: string,
  type: ColumnType,
  needed: boolean,
  hint: string,
  example: string,
  also: readonly string[] = [],
): Column => ({ key, title, type, needed, hint, example, also })

const NUMBER = ['roster no', 'number', 'soldier number', 'soldier no', 'personnel number', 'id number', 'roster']
const person = (key: string, title: string, needed: boolean, also: readonly string[]) =>
  column(key, title, 'text', needed, 'The roster number.', '1007', also)
const soldier = person('rosterNumber', 'Roster number', true, [...NUMBER, 'soldier'])
const candidate = person('candidate', 'Candidate', true, [
  ...NUMBER,
  'soldier',
  'candidate number',
  'candidate roster number',
])
const sponsor = (needed: boolean) =>
  person('sponsor', 'Sponsor', needed, ['sponsor number', 'sponsor roster number', 'coach', 'coached by'])
const grader = person('grader', 'Grader', true, [
  'grader number',
  'grader roster number',
  'graded by',
  'examiner',
  'tested by',
])
const standard = column('standard', 'Standard', 'text', true, 'Its code or title.', 'sword-saber-standing', [
  'test',
  'standard code',
  'task',
])
const from = (hint: string) =>
  column('from', 'From', 'day', true, hint, '2026-01-05', [
    'from day',
    'since',
    'start',
    'start date',
    'effective',
    'effective date',
    'date from',
    'valid from',
    'as of',
    'joined',
    'date joined',
    'arrived',
  ])
const to = column('to', 'To', 'day', false, 'Last day; blank: still.', '2026-06-30', [
  'until',
  'end',
  'end date',
  'through',
  'date to',
  'last day',
])
const arm = column('arm', 'Arm', 'text', false, 'sword, saber, rifle …', 'sword', ['weapon', 'with'])
const version = column('standardVersion', 'Version', 'whole', false, 'Blank: the one in force on that day.', '1', [
  'standard version',
  'edition',
])
const certification = column('certification', 'Certification', 'text', true, 'Its code or title.', 'sword', [
  'certification code',
  'certificate',
  'qualification',
  'cert',
])
const unit = (needed: boolean) =>
  column(
    'unit',
    'Unit',
    'text',
    needed,
    'Its name, or its path from the top.',
    'Calloway Point Ceremonial Battalion / A Company / 1st Platoon',
    ['unit path', 'organisation', 'organization', 'assigned to', 'assignment', 'unit name'],
  )

/** The columns of each kind; those of a sheet's measures follow from the standards (`measureColumns`). */
export const COLUMNS: Readonly<Record<ImportKind, readonly Column[]>> = {
  roster: [
    soldier,
    column('familyName', 'Family name', 'text', false, 'Needed for somebody new.', 'Amadi', [
      'last name',
      'surname',
      'lastname',
      'name',
      'nachname',
      'family',
    ]),
    column('givenName', 'Given name', 'text', false, 'Needed for somebody new.', 'Rafe', [
      'first name',
      'forename',
      'firstname',
      'vorname',
      'given',
    ]),
    column('grade', 'Grade', 'text', false, 'Blank: as before.', 'SGT', ['rank', 'pay grade', 'dienstgrad']),
    column('arms', 'Arms', 'codes', false, 'With ; between. Blank: as before. none: no arm.', 'sword;rifle', [
      'weapons',
      'arm',
      'weapon',
      'carries',
    ]),
    { ...unit(false), needed: false },
    column('company', 'Company', 'text', false, 'Where the unit column does not say it.', 'A Company', ['coy', 'co']),
    column('platoon', 'Platoon', 'text', false, 'Where the unit column does not say it.', '1st Platoon', [
      'plt',
      'section',
    ]),
    from('From this day on the row holds. A soldier has a row for each change.'),
    column('left', 'Left', 'left', false, 'transferred, separated or other.', '', [
      'left why',
      'reason left',
      'leaving',
      'departure',
      'why left',
    ]),
    column('leftOn', 'Left on', 'day', false, 'First day away.', '', [
      'left date',
      'departed',
      'departure date',
      'date left',
      'leaving date',
    ]),
  ],
  awards: [
    soldier,
    certification,
    column('awardedOn', 'Awarded on', 'day', true, 'The day it was earned.', '2025-09-01', [
      'award date',
      'awarded',
      'date awarded',
      'date',
      'certified on',
      'earned',
      'earned on',
      'date of certification',
      'issued',
    ]),
    column('validThrough', 'Valid through', 'day', true, 'The last day it counts.', '2026-09-01', [
      'valid until',
      'expires',
      'expiry',
      'expiration',
      'expiration date',
      'valid to',
      'until',
      'expires on',
    ]),
    column('evidence', 'Evidence', 'text', true, 'Where it is written.', 'Certificate 118, binder 4', [
      'proof',
      'source',
      'document',
      'reference',
      'basis',
      'remarks',
    ]),
  ],
  results: [
    candidate,
    standard,
    version,
    column('on', 'Day', 'day', true, 'The day of the test.', '2025-11-04', [
      'date',
      'test date',
      'test day',
      'tested on',
      'on',
    ]),
    column('outcome', 'Outcome', 'outcome', true, 'GO or NO-GO.', 'GO', [
      'result',
      'go no go',
      'pass',
      'passed',
      'score',
      'grade',
    ]),
    grader,
    sponsor(false),
    arm,
    column('notes', 'Notes', 'text', false, '', '', ['note', 'remarks', 'comment', 'comments']),
  ],
  sponsorships: [candidate, sponsor(true), from('First day of coaching.'), to],
  appointments: [
    person('rosterNumber', 'Roster number', true, [...NUMBER, 'soldier', 'grader', 'appointed']),
    standard,
    from('First day of the appointment.'),
    to,
  ],
  sheets: [
    column('id', 'Sheet', 'text', false, 'A UUID; blank: made from what is on the sheet.', '', [
      'sheet id',
      'uuid',
      'id',
    ]),
    candidate,
    grader,
    sponsor(false),
    standard,
    version,
    arm,
    column('purpose', 'Purpose', 'text', false, 'test or practice; blank: test.', 'test', ['kind of sheet']),
    column('on', 'Day', 'day', false, 'Where start and finish are bare times.', '2026-03-02', [
      'date',
      'test date',
      'test day',
    ]),
    column('startedAt', 'Started', 'moment', true, 'A time, or day and time.', '09:00', [
      'start',
      'start time',
      'begin',
      'began',
      'from',
    ]),
    column('finishedAt', 'Finished', 'moment', true, 'A time, or day and time.', '09:31', [
      'finish',
      'finish time',
      'end',
      'end time',
      'ended',
      'to',
    ]),
    column('uniform', 'Uniform', 'yes-no', false, 'Right uniform worn: yes or no; blank: yes.', 'yes', [
      'uniform right',
    ]),
    column('equipment', 'Equipment', 'yes-no', false, 'Serviceable: yes or no; blank: yes.', 'yes', [
      'equipment serviceable',
    ]),
    column('sponsorPresent', 'Sponsor present', 'yes-no', false, 'yes or no; blank: yes.', 'yes', []),
    column('voidKind', 'Void', 'text', false, 'weather, injury, equipment, interrupted or other.', '', [
      'void kind',
      'voided',
      'void reason',
    ]),
    column('voidText', 'Void text', 'text', false, 'What happened.', '', ['void note', 'void why']),
    column('outcomeOnly', 'Outcome only', 'outcome', false, 'GO or NO-GO, where no marks are left.', '', [
      'recorded outcome',
    ]),
    column('secondOf', 'Second of', 'text', false, 'The sheet of the first grader.', '', ['second grader of']),
    column('testDayId', 'Test day id', 'text', false, 'Where the test day is planned here.', '', []),
    column('pauses', 'Pauses', 'list', false, 'from>to>note, with ; between.', '', ['ceases']),
    column('acknowledged', 'Acknowledged', 'list', false, 'roster number@time, with ; between.', '', [
      'acknowledged by',
    ]),
    column('notes', 'Notes', 'text', false, '', '', ['note', 'remarks', 'comment', 'comments']),
  ],
  standards: [
    column('code', 'Code', 'text', true, 'The same in every row of the standard.', 'rifle-standing', [
      'standard code',
      'standard',
    ]),
    column('version', 'Version', 'whole', false, 'Blank: 1.', '1', ['standard version']),
    column('title', 'Title', 'text', true, '', 'Rifle, standing manual', ['standard title', 'name']),
    column('effectiveFrom', 'Effective from', 'day', true, 'The first day it is in force.', '2026-01-01', [
      'in force from',
      'from',
      'effective',
    ]),
    column('arms', 'Arms', 'codes', false, 'With ; between.', 'rifle', ['weapons', 'arm']),
    column('trials', 'Trials', 'whole', false, 'How often each minor is called; blank: 3.', '3', []),
    column('needed', 'Needed', 'whole', false, 'Correct ones for a GO; blank: 2.', '2', []),
    column('percent', 'Percent', 'text', false, 'Of the minors that must be GO; blank: 80.', '80', [
      'percentage',
      'pass percent',
    ]),
    column('class', 'Major or minor', 'text', false, 'Blank: minor.', 'minor', ['class', 'type', 'kind']),
    column('measure', 'Measure', 'text', true, 'Its code; one row a measure.', 'order-arms', [
      'measure code',
      'performance measure',
    ]),
    column('measureTitle', 'Measure title', 'text', true, '', 'Order arms', ['measure name', 'description']),
    column(
      'faults',
      'Faults',
      'list',
      false,
      'code=title, with ; between.',
      'slow=Too slow;butt-off=Butt off the line',
      ['fault'],
    ),
    column(
      'gauges',
      'Gauges',
      'list',
      false,
      'code=title|unit|least|most|fault below|fault above.',
      'tip=Tip height|in|4|6||',
      ['gauge'],
    ),
  ],
  ceremonies: [
    column('title', 'Ceremony', 'text', true, 'The same in every row of the ceremony.', 'Founders’ Parade', [
      'title',
      'event',
      'name',
    ]),
    column('venue', 'Venue', 'text', false, '', 'Parade ground', ['location', 'where']),
    unit(true),
    column('on', 'Day', 'day', false, 'Where start and end are bare times.', '2026-06-27', ['date', 'event date']),
    column('startsAt', 'Starts', 'moment', true, 'A time, or day and time.', '10:00', [
      'start',
      'start time',
      'from',
      'begins',
    ]),
    column('endsAt', 'Ends', 'moment', true, 'A time, or day and time.', '11:30', ['end', 'end time', 'to', 'until']),
    column('post', 'Post', 'text', true, 'One row a post.', 'Colours, right guard', ['post title', 'position', 'role']),
    column('row', 'Row', 'whole', true, 'The rank it forms up in, 1 in front.', '1', [
      'rank row',
      'rank in formation',
      'file row',
    ]),
    column('place', 'Place', 'whole', true, 'In the rank, from its right.', '1', [
      'place in row',
      'place in rank',
      'file',
    ]),
    certification,
    arm,
    column('grades', 'Grades', 'codes', false, 'With ; between; blank: any.', '', ['grade', 'ranks']),
    person('rosterNumber', 'Soldier', false, ['roster number', ...NUMBER, 'named']),
  ],
}
