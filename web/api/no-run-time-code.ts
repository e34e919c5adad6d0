import { z } from 'zod'

// The content security policy allows no code made at run time, which zod would try for speed. Imported before any schema.
z.config({ jitless: true })
