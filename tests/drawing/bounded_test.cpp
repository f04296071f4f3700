#include "bounded.hpp"

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <filesystem>
#include <iostream>
#include <stdexcept>
#include <thread>

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
