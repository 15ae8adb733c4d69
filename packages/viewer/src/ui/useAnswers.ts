/** React's way to the worker's answers. */
import { createContext, useContext } from 'react'
import { useStore } from 'zustand'
import type { AnswerStore } from '../state/answers.ts'

export const AnswersContext = createContext<AnswerStore | undefined>(undefined)

export function useAnswers<T>(select: (state: ReturnType<AnswerStore['getState']>) => T): T {
  const answers = useContext(AnswersContext)
  if (!answers) throw new Error('a part of the page stands outside its answers: wrap it in <AnswersContext>')
  return useStore(answers, select)
}
