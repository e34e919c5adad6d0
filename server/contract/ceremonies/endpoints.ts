import type { Created, IdParams } from '../common.ts'
import type { Endpoint } from '../endpoint.ts'
import type { AnswerBody, AskBody, AskCandidates, AskList, CeremonyAsks } from './asks.ts'
import type {
  AlternatesBody,
  CancelBody,
  CeremonyBody,
  CeremonyChange,
  CeremonyDetail,
  CeremonyPage,
  CeremonyQuery,
  ChangedCeremony,
  HeightBody,
  NamingBody,
} from './ceremonies.ts'
import type { PostCandidatePage, PostCandidateQuery, PostParams } from './manning.ts'
import type { Outlook, OutlookPage, OutlookQuery, OutlooksQuery } from './outlooks.ts'

export const listAsksFor = 'GET /api/ceremonies/:id/asks' as Endpoint<{
  params: typeof IdParams
  answer: typeof CeremonyAsks
}>

export const askUnit = 'POST /api/ceremonies/:id/asks' as Endpoint<{
  params: typeof IdParams
  body: typeof AskBody
  answer: typeof Created
}>

export const listAsks = 'GET /api/asks' as Endpoint<{ answer: typeof AskList }>

export const listAskCandidates = 'GET /api/asks/:id/candidates' as Endpoint<{
  params: typeof IdParams
  answer: typeof AskCandidates
}>

export const answerAsk = 'POST /api/asks/:id/answer' as Endpoint<{
  params: typeof IdParams
  body: typeof AnswerBody
  answer: typeof Created
}>

export const takeAskBack = 'POST /api/asks/:id/take-back' as Endpoint<{
  params: typeof IdParams
  answer: typeof Created
}>

export const listCeremonies = 'GET /api/ceremonies' as Endpoint<{
  query: typeof CeremonyQuery
  answer: typeof CeremonyPage
}>

export const createCeremony = 'POST /api/ceremonies' as Endpoint<{ body: typeof CeremonyBody; answer: typeof Created }>

export const getCeremony = 'GET /api/ceremonies/:id' as Endpoint<{
  params: typeof IdParams
  answer: typeof CeremonyDetail
}>

export const changeCeremony = 'PUT /api/ceremonies/:id' as Endpoint<{
  params: typeof IdParams
  body: typeof CeremonyChange
  answer: typeof ChangedCeremony
}>

export const cancelCeremony = 'POST /api/ceremonies/:id/cancel' as Endpoint<{
  params: typeof IdParams
  body: typeof CancelBody
  answer: typeof ChangedCeremony
}>

export const nameSoldiers = 'POST /api/ceremonies/:id/name' as Endpoint<{
  params: typeof IdParams
  body: typeof NamingBody
  answer: typeof ChangedCeremony
}>

export const changeAlternates = 'PUT /api/ceremonies/:id/alternates' as Endpoint<{
  params: typeof IdParams
  body: typeof AlternatesBody
  answer: typeof ChangedCeremony
}>

export const listPostCandidates = 'GET /api/ceremonies/:id/posts/:postId/candidates' as Endpoint<{
  params: typeof PostParams
  query: typeof PostCandidateQuery
  answer: typeof PostCandidatePage
}>

export const getOutlook = 'GET /api/ceremonies/:id/outlook' as Endpoint<{
  params: typeof IdParams
  query: typeof OutlookQuery
  answer: typeof Outlook
}>

export const listOutlooks = 'GET /api/outlooks' as Endpoint<{ query: typeof OutlooksQuery; answer: typeof OutlookPage }>

export const setHeight = 'PUT /api/soldiers/:id/height' as Endpoint<{
  params: typeof IdParams
  body: typeof HeightBody
  answer: typeof HeightBody
}>
