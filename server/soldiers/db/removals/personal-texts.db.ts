/** Free words in rows of a table. Conditions and ids are SQL; `:id` is the soldier. */
export interface PersonalText {
  readonly table: string
  readonly texts: readonly string[]
  /** Columns of JSON that hold notes among other things, which stay. */
  readonly notes?: readonly string[]
  /** What they are, for people. */
  readonly what: string
  /** Which rows are about the soldier: there the words go. Null: of nobody in particular. */
  readonly own: string | null
  /** Own rows are changed by a statement of their own: an account is closed, entries of the record are emptied. */
  readonly apart?: true
  /** What to open to read one. */
  readonly place: { readonly kind: 'sheet' | 'soldier' | 'ceremony' | 'test day' | 'none'; readonly id: string }
}

const ofSoldier = (table: string, texts: readonly string[], what: string): PersonalText => ({
  table,
  texts,
  what,
  own: 'soldier_id = :id::uuid',
  place: { kind: 'soldier', id: 'soldier_id' },
})

const ofSheet = (
  table: string,
  texts: readonly string[],
  what: string,
  notes: readonly string[] = [],
): PersonalText => ({
  table,
  texts,
  notes,
  what,
  own: 'sheet_id IN (SELECT id FROM sheet WHERE candidate_id = :id::uuid)',
  place: { kind: 'sheet', id: 'sheet_id' },
})

const ofNobody = (table: string, texts: readonly string[], what: string, place = NOWHERE): PersonalText => ({
  table,
  texts,
  what,
  own: null,
  place,
})

const ACCOUNT = '(SELECT id FROM account WHERE soldier_id = :id::uuid)'

/** Entries of the record that tell who the soldier is: their account made them, or somebody tried to sign in as them. */
export const ENTRIES_BY = `(account_id = ${ACCOUNT} OR (subject_id = ${ACCOUNT}::text AND action LIKE 'session.%'))`

/** Entries about the soldier, under this id or one merged into it, about their account, or their own sheets. */
export const ENTRIES_ABOUT = `(action <> 'soldier.removed' AND (subject_id = :id OR subject_id = ${ACCOUNT}::text
  OR subject_id IN (SELECT away_id::text FROM soldier_merge WHERE kept_id = :id::uuid)
  OR subject_id IN (SELECT id::text FROM sheet WHERE candidate_id = :id::uuid)))`

const NOWHERE: PersonalText['place'] = { kind: 'none', id: 'NULL' }

/** Every place where people write what they like: words about a removed soldier go, and those of others are searched. */
export const PERSONAL_TEXTS: readonly PersonalText[] = [
  ofSheet('sheet_revision', ['reason'], 'notes on sheets and reasons of amendments', ['body', 'score']),
  ofSheet('sheet_decision', ['reason'], 'reasons of decisions on sheets'),
  ofSheet('amendment_proposal', ['reason', 'decision_reason'], 'proposed amendments', ['body']),
  ofSheet('appeal', ['reason', 'decision_reason'], 'appeals and what was decided'),
  ofSoldier('review', ['note'], 'notes of reviews'),
  ofSoldier('withdrawal', ['reason'], 'reasons of withdrawals from training'),
  ofSoldier('suspension', ['reason', 'lift_reason'], 'reasons of suspensions'),
  ofSoldier('carried_award', ['evidence'], 'evidence of carried-over awards'),
  ofSoldier('award_decision', ['reason', 'taken_back_reason'], 'reasons of decisions on certifications'),
  ofSoldier('award_extension', ['reason', 'taken_back_reason'], 'reasons of extensions'),
  ofSoldier('due_move', ['reason'], 'reasons of moved due days'),
  {
    table: 'booking',
    texts: ['state_reason'],
    what: 'reasons at bookings',
    own: 'candidate_id = :id::uuid',
    place: { kind: 'test day', id: 'test_day_id' },
  },
  {
    table: 'soldier_merge',
    texts: ['reason', 'undo_reason'],
    what: 'reasons of merges',
    own: 'kept_id = :id::uuid',
    place: { kind: 'soldier', id: 'kept_id' },
  },
  ofNobody('coaching_note', ['text'], 'coaching notes of other candidates', { kind: 'soldier', id: 'candidate_id' }),
  ofNobody('ceremony', ['title', 'place', 'notes', 'cancel_reason'], 'ceremonies', { kind: 'ceremony', id: 'id' }),
  ofNobody('rehearsal', ['place'], 'rehearsals', { kind: 'ceremony', id: 'ceremony_id' }),
  ofNobody('soldier_ask', ['word'], 'answers of units asked for a soldier', { kind: 'ceremony', id: 'ceremony_id' }),
  ofNobody('post', ['title'], 'titles of posts', { kind: 'ceremony', id: 'ceremony_id' }),
  ofNobody('test_day', ['place', 'call_off_reason'], 'test days', { kind: 'test day', id: 'id' }),
  ofNobody('unit', ['name'], 'names of units'),
  ofNobody('certification', ['title'], 'titles of certifications'),
  ofNobody('script_token', ['name'], 'names of tokens for scripts'),
  ofNobody('passkey', ['name'], 'names of passkeys'),
  ofNobody('factor_reset', ['by', 'reason'], 'reasons for which second factors were reset'),
  ofNobody('sign_on_provider', ['name'], 'names of providers of single sign-on'),
  {
    table: 'account',
    texts: ['name'],
    what: 'names of other accounts',
    own: 'soldier_id = :id::uuid',
    apart: true,
    place: NOWHERE,
  },
  {
    table: 'record_entry',
    texts: ['account_name'],
    what: 'names of other accounts in the record of changes',
    own: ENTRIES_BY,
    apart: true,
    place: NOWHERE,
  },
  {
    table: 'record_entry',
    texts: ['before', 'after', 'reason'],
    what: 'other entries of the record of changes, which an administrator can read',
    own: ENTRIES_ABOUT,
    apart: true,
    place: NOWHERE,
  },
]
