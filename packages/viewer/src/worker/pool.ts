/** Web workers that share a batch: the library's pool, which only wants to be told how a thread is made. */
export { Cancelled, Pool, type Run, type Thread } from '@swashtrue/mixing'
