import type { IdParams, PageQuery } from '../common.ts'
import type { Endpoint } from '../endpoint.ts'
import type { FailedMailPage, MailAddressBody, MailChoicesBody, MailCodeBody, MailStatus, OwnMail } from './mail.ts'

export const getOwnMail = 'GET /api/account/mail' as Endpoint<{ answer: typeof OwnMail }>

export const changeMailAddress = 'PUT /api/account/mail/address' as Endpoint<{
  body: typeof MailAddressBody
  answer: typeof OwnMail
}>

export const removeMailAddress = 'DELETE /api/account/mail/address' as Endpoint

export const sendMailCode = 'POST /api/account/mail/code' as Endpoint<{ answer: typeof OwnMail }>

export const confirmMailAddress = 'POST /api/account/mail/confirm' as Endpoint<{
  body: typeof MailCodeBody
  answer: typeof OwnMail
}>

export const chooseMail = 'PUT /api/account/mail/choices' as Endpoint<{
  body: typeof MailChoicesBody
  answer: typeof OwnMail
}>

export const getMailStatus = 'GET /api/mail' as Endpoint<{ answer: typeof MailStatus }>

export const listFailedMails = 'GET /api/mail/failures' as Endpoint<{
  query: typeof PageQuery
  answer: typeof FailedMailPage
}>

export const retryMail = 'POST /api/mail/failures/:id/retry' as Endpoint<{
  params: typeof IdParams
  answer: typeof MailStatus
}>

export const dropMail = 'DELETE /api/mail/failures/:id' as Endpoint<{ params: typeof IdParams }>

export const sendTestMail = 'POST /api/mail/test' as Endpoint<{ answer: typeof MailStatus }>
