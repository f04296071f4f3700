#include "bounded.hpp"

#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <iostream>
#include <stdexcept>
#include <thread>
#include <vector>

#include "ligament/drawing.hpp"

namespace ligament {
namespace {

using namespace std::chrono_literals;

std::size_t open_files() {
    std::size_t count = 0;
    for (const auto& entry : std::filesystem::directory_iterator("/proc/self/fd")) count += entry.exists() || true;
    return count;
}

void expect_no_children() {
    EXPECT_EQ(waitpid(-1, nullptr, WNOHANG), -1);
    EXPECT_EQ(errno, ECHILD);
}

BoundedResult run_one(std::chrono::milliseconds limit, BoundedWork work) {
    return run_bounded({std::move(work)}, limit, 1).at(0);
}

TEST(Bounded, GivesBackWhatTheWorkGave) {
    const std::size_t before = open_files();
    const BoundedResult result = run_one(10s, [] { return std::string(1'000'000, 'x'); });  // more than a pipe holds
    ASSERT_TRUE(result.bytes);
    EXPECT_EQ(*result.bytes, std::string(1'000'000, 'x'));
    EXPECT_FALSE(result.timed_out);
    EXPECT_EQ(result.error, "");
    EXPECT_EQ(open_files(), before);
    expect_no_children();
}

TEST(Bounded, NothingIsAValueToo) {
    const BoundedResult result = run_one(10s, [] { return std::string(); });
    ASSERT_TRUE(result.bytes);
    EXPECT_TRUE(result.bytes->empty());
}

TEST(Bounded, EndsWorkThatGoesOn) {
    const std::size_t before = open_files();
    const auto start = std::chrono::steady_clock::now();
    const BoundedResult result = run_one(50ms, []() -> std::string {
        for (;;) std::this_thread::sleep_for(1s);
    });
    EXPECT_TRUE(result.timed_out);
    EXPECT_FALSE(result.bytes);
    EXPECT_LT(std::chrono::steady_clock::now() - start, 5s);
    EXPECT_EQ(open_files(), before);
    expect_no_children();
}

TEST(Bounded, ACrashIsAnError) {
    const BoundedResult result = run_one(10s, []() -> std::string {
        raise(SIGKILL);
        return {};
    });
    EXPECT_FALSE(result.bytes);
    EXPECT_FALSE(result.timed_out);
    EXPECT_EQ(result.error, "the layout process was ended by signal 9");
    expect_no_children();
}

TEST(Bounded, AnExceptionIsAnError) {
    const BoundedResult result = run_one(10s, []() -> std::string { throw std::runtime_error("lost"); });
    EXPECT_FALSE(result.bytes);
    EXPECT_EQ(result.error, "the layout process ended with status 2");
}

TEST(Bounded, ManyWorksKeepTheirOrderAndOneThatHangsHoldsUpNoOther) {
    const std::size_t before = open_files();
    std::vector<BoundedWork> works;
    for (int i = 0; i < 40; ++i)
        works.emplace_back([i]() -> std::string {
            if (i % 10 == 3) throw std::runtime_error("lost");
            if (i == 7) std::this_thread::sleep_for(60s);
            return std::to_string(i);
        });
    const std::vector<BoundedResult> results = run_bounded(works, 2s, 3);
    ASSERT_EQ(results.size(), 40u);
    for (std::size_t i = 0; i < 40; ++i) {
        EXPECT_EQ(results[i].timed_out, i == 7) << i;
        if (i == 7 || i % 10 == 3)
            EXPECT_FALSE(results[i].bytes) << i;
        else
            EXPECT_EQ(results[i].bytes, std::to_string(i));
    }
    EXPECT_EQ(open_files(), before);
    expect_no_children();
}

// AddressSanitizer takes terabytes of addresses for itself: there is no limit to run into.
#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define LIGAMENT_HAS_ADDRESS_SANITIZER
#endif
#endif
#if !defined(__SANITIZE_ADDRESS__) && !defined(LIGAMENT_HAS_ADDRESS_SANITIZER)
void limit_addresses() {
    const rlimit small{512u << 20, 512u << 20};
    setrlimit(RLIMIT_AS, &small);
}

TEST(Bounded, WantOfMemoryIsCalledByItsName) {
    const BoundedResult result = run_one(10s, [] {
        limit_addresses();
        return std::string(std::size_t{1} << 30, 'x');
    });
    EXPECT_FALSE(result.bytes);
    EXPECT_TRUE(result.out_of_memory);
    EXPECT_EQ(result.error, "the layout ran out of memory");
}

// What C code does that does not look at what malloc gives.
TEST(Bounded, ACrashForWantOfMemoryIsWantOfMemory) {
    const BoundedResult result = run_one(10s, []() -> std::string {
        limit_addresses();
        for (;;) {
            void* volatile got = std::malloc(1u << 20);
            std::memset(got, 0, 1);
        }
    });
    EXPECT_TRUE(result.out_of_memory);
    EXPECT_EQ(result.error, "the layout ran out of memory");
}
#endif

TEST(Bounded, ACrashWithMemoryLeftIsACrash) {
    const BoundedResult result = run_one(10s, []() -> std::string { std::abort(); });
    EXPECT_FALSE(result.out_of_memory);
    EXPECT_EQ(result.error, "the layout process was ended by signal 6");
}

TEST(Bounded, TheChildHasNoneOfTheParentsHandlersButWhatIsIgnoredStaysSo) {
    const auto old_handler = std::signal(SIGINT, [](int) {});
    const auto old_hangup = std::signal(SIGHUP, SIG_IGN);
    const BoundedResult result = run_one(10s, []() -> std::string {
        raise(SIGHUP);
        raise(SIGINT);
        return "still here";
    });
    EXPECT_EQ(result.error, "the layout process was ended by signal 2");
    std::signal(SIGINT, old_handler);
    std::signal(SIGHUP, old_hangup);
}

TEST(Bounded, SignalsAreLetThroughAgain) {
    sigset_t before, after, in_child;
    sigprocmask(SIG_SETMASK, nullptr, &before);
    const BoundedResult result = run_one(10s, [&] {
        sigprocmask(SIG_SETMASK, nullptr, &in_child);
        return std::string(sigismember(&in_child, SIGTERM) == sigismember(&before, SIGTERM) ? "as before" : "held");
    });
    EXPECT_EQ(result.bytes, "as before");
    sigprocmask(SIG_SETMASK, nullptr, &after);
    for (int signal = 1; signal < SIGRTMIN; ++signal)
        EXPECT_EQ(sigismember(&after, signal), sigismember(&before, signal)) << signal;
}

TEST(Bounded, LayoutsCanBeEndedFromASignalHandler) {
    const auto old_handler = std::signal(SIGUSR1, [](int) { end_layouts(); });
    const pid_t parent = getpid();
    const BoundedResult result = run_one(30s, [parent]() -> std::string {
        kill(parent, SIGUSR1);
        for (;;) std::this_thread::sleep_for(1s);
    });
    EXPECT_FALSE(result.timed_out);
    EXPECT_EQ(result.error, "the layout process was ended by signal 9");
    std::signal(SIGUSR1, old_handler);
    expect_no_children();
}

TEST(Bounded, TheChildIsSilent) {
    ::testing::internal::CaptureStderr();
    ::testing::internal::CaptureStdout();
    run_one(10s, [] {
        std::cerr << "trouble\n" << std::flush;
        std::cout << "trouble\n" << std::flush;
        return std::string();
    });
    EXPECT_EQ(::testing::internal::GetCapturedStderr(), "");
    EXPECT_EQ(::testing::internal::GetCapturedStdout(), "");
}

}  // namespace
}  // namespace ligament
