import { createReader, type ReaderAnswer, type ReaderJob } from './reader.ts'
import { serve } from './serve.ts'

serve<ReaderJob, ReaderAnswer>(createReader())
