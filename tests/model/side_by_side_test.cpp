#include "side_by_side.hpp"

#include <gtest/gtest.h>
#include <signal.h>

#include <algorithm>
#include <atomic>
#include <stdexcept>
#include <thread>
#include <vector>

namespace ligament {
namespace {

TEST(SideBySide, DoesEachWorkOnce) {
    for (unsigned workers : {1U, 2U, 5U, 200U}) {
        std::vector<int> done(100, 0);
        std::vector<std::function<void()>> works;
        for (int& one : done) works.emplace_back([&one] { ++one; });
        do_side_by_side(works, workers);
        EXPECT_EQ(done, std::vector<int>(100, 1)) << workers;
    }
    do_side_by_side({}, 4);
}

TEST(SideBySide, ThrowsWhatTheFirstInTheListThrewAfterAllAreDone) {
    for (unsigned workers : {1U, 3U}) {
        std::atomic<int> done = 0;
        std::vector<std::function<void()>> works(20, [&done] { ++done; });
        works[7] = [] { throw std::runtime_error("seven"); };
        works[3] = [] { throw std::runtime_error("three"); };
        try {
            do_side_by_side(works, workers);
            FAIL() << "nothing was thrown";
        } catch (const std::runtime_error& error) {
            EXPECT_STREQ(error.what(), "three");
        }
        EXPECT_EQ(done, 18);
    }
}

TEST(SideBySide, KeepsSignalsFromTheOtherThreads) {
    const auto is_blocked = [] {
        sigset_t mask;
        pthread_sigmask(SIG_SETMASK, nullptr, &mask);
        return sigismember(&mask, SIGTERM) == 1;
    };
    const auto caller = std::this_thread::get_id();
    std::atomic<int> started = 0, elsewhere = 0, wrong = 0;
    const auto work = [&] {
        ++started;
        while (started < 2) std::this_thread::yield();  // so that each is in a thread of its own
        const bool is_elsewhere = std::this_thread::get_id() != caller;
        elsewhere += is_elsewhere;
        wrong += is_blocked() != is_elsewhere;
    };
    const std::vector<std::function<void()>> works{work, work};
    do_side_by_side(works, 2);
    EXPECT_EQ(elsewhere, 1);
    EXPECT_EQ(wrong, 0);
    EXPECT_FALSE(is_blocked()) << "the calling thread is as it was";
}

TEST(SideBySide, SmallRigsGetOneThread) {
    EXPECT_EQ(workers_that_pay(200, 8), 1U);
    EXPECT_EQ(workers_that_pay(100'000, 8), 8U);
    EXPECT_GE(workers_that_pay(100'000, 0), 1U);
}

}  // namespace
}  // namespace ligament
