// How is independent work spread over processors?
#pragma once

#include <cstddef>
#include <functional>
#include <span>

namespace ligament {

/// Does all works, each once, the next in the list whenever a thread is free: the calling one and up to `workers` - 1 more. Works
/// must not write what another one reads, so that what they do is the same in any number of threads. An exception of the first in
/// the list that throws is thrown again once all threads are done. Signals stay with the calling thread.
void do_side_by_side(std::span<const std::function<void()>> works, unsigned workers);

/// So many of `workers` as pay for a rig of so many bones: one for small rigs, since starting a thread takes as long as looking
/// at some hundred bones. 0 workers are as many as the machine runs at the same time.
unsigned workers_that_pay(std::size_t bones, unsigned workers);

}  // namespace ligament
