#include "side_by_side.hpp"

#include <pthread.h>

#include <algorithm>
#include <atomic>
#include <csignal>
#include <exception>
#include <system_error>
#include <thread>
#include <vector>

namespace ligament {

namespace {

/// While it lives no signal comes to this thread, nor to threads that it starts.
class SignalsHeld {
  public:
    SignalsHeld() {
        sigset_t all;
        sigfillset(&all);
        pthread_sigmask(SIG_BLOCK, &all, &before_);
    }
    ~SignalsHeld() { pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
    SignalsHeld(const SignalsHeld&) = delete;
    SignalsHeld& operator=(const SignalsHeld&) = delete;

  private:
    sigset_t before_;
};

}  // namespace

void do_side_by_side(std::span<const std::function<void()>> works, unsigned workers) {
    std::atomic<std::size_t> next = 0;
    std::vector<std::exception_ptr> failures(works.size());
    const auto go_through = [&] {
        for (std::size_t i = next++; i < works.size(); i = next++) {
            try {
                works[i]();
            } catch (...) {
                failures[i] = std::current_exception();
            }
        }
    };
    {
        std::vector<std::jthread> threads;
        try {
            const SignalsHeld held;
            for (std::size_t i = 1; i < std::min<std::size_t>(workers, works.size()); ++i) threads.emplace_back(go_through);
        } catch (const std::system_error&) {
            // No more threads are to be had: those that there are do it all.
        }
        go_through();
    }
    for (const std::exception_ptr& failure : failures)
        if (failure) std::rethrow_exception(failure);
}

unsigned workers_that_pay(std::size_t bones, unsigned workers) {
    constexpr std::size_t bones_that_pay = 5'000;
    if (bones < bones_that_pay) return 1;
    return workers > 0 ? workers : std::max(1U, std::thread::hardware_concurrency());
}

}  // namespace ligament
