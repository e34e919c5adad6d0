import type { Created, IdParams, PageQuery } from '../common.ts'
import type { Endpoint } from '../endpoint.ts'
import type { CandidateCoaching, CandidateCoachingQuery, Coaching } from './coaching.ts'
import type { CoachingNoteBody, CoachingNotePage } from './coaching-notes.ts'
import type { PracticeBody, PracticePage } from './practices.ts'
import type { StudyParams, StudyQuery, StudySheet } from './study.ts'

export const listCoachingNotes = 'GET /api/soldiers/:id/coaching-notes' as Endpoint<{
  params: typeof IdParams
  query: typeof PageQuery
  answer: typeof CoachingNotePage
}>

export const addCoachingNote = 'POST /api/soldiers/:id/coaching-notes' as Endpoint<{
  params: typeof IdParams
  body: typeof CoachingNoteBody
  answer: typeof Created
}>

export const changeCoachingNote = 'PUT /api/coaching-notes/:id' as Endpoint<{
  params: typeof IdParams
  body: typeof CoachingNoteBody
  answer: typeof Created
}>

export const removeCoachingNote = 'POST /api/coaching-notes/:id/remove' as Endpoint<{
  params: typeof IdParams
  answer: typeof Created
}>

export const restoreCoachingNote = 'POST /api/coaching-notes/:id/restore' as Endpoint<{
  params: typeof IdParams
  answer: typeof Created
}>

export const getCoaching = 'GET /api/coaching' as Endpoint<{ query: typeof PageQuery; answer: typeof Coaching }>

export const getCandidateCoaching = 'GET /api/soldiers/:id/coaching' as Endpoint<{
  params: typeof IdParams
  query: typeof CandidateCoachingQuery
  answer: typeof CandidateCoaching
}>

export const getStudySheet = 'GET /api/study/:standard' as Endpoint<{
  params: typeof StudyParams
  query: typeof StudyQuery
  answer: typeof StudySheet
}>

export const listPractices = 'GET /api/soldiers/:id/practices' as Endpoint<{
  params: typeof IdParams
  query: typeof PageQuery
  answer: typeof PracticePage
}>

export const storePractice = 'PUT /api/practices/:id' as Endpoint<{
  params: typeof IdParams
  body: typeof PracticeBody
  answer: typeof Created
}>

export const removePractice = 'DELETE /api/practices/:id' as Endpoint<{ params: typeof IdParams }>
