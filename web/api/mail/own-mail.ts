import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/mail/endpoints.ts'
import type { MailAddressBody, MailChoicesBody } from '#contract/mail/mail.ts'
import { call } from '../client.ts'

/** One's own mail address, and what comes there when. */
export const ownMailQuery = queryOptions({
  queryKey: ['account', 'mail'],
  queryFn: () => call(endpoints.getOwnMail),
})

export const changeMailAddress = (body: MailAddressBody) => call(endpoints.changeMailAddress, { body })

export const removeMailAddress = () => call(endpoints.removeMailAddress)

/** A new code to the address that waits to be confirmed. */
export const sendMailCode = () => call(endpoints.sendMailCode)

export const confirmMailAddress = (code: string) => call(endpoints.confirmMailAddress, { body: { code } })

export const chooseMail = (body: MailChoicesBody) => call(endpoints.chooseMail, { body })
