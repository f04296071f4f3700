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

TEST(Bounded, GivesBackWhatTheWorkGave) {
    const std::size_t before = open_files();
    const BoundedResult result = run_bounded(10s, [] { return std::vector<double>(100'000, 0.1); });  // more than a pipe holds
    ASSERT_TRUE(result.values);
    EXPECT_EQ(*result.values, std::vector<double>(100'000, 0.1));
    EXPECT_FALSE(result.timed_out);
    EXPECT_EQ(result.error, "");
    EXPECT_EQ(open_files(), before);
    expect_no_children();
}

TEST(Bounded, NothingIsAValueToo) {
    const BoundedResult result = run_bounded(10s, [] { return std::vector<double>(); });
    ASSERT_TRUE(result.values);
    EXPECT_TRUE(result.values->empty());
}

TEST(Bounded, EndsWorkThatGoesOn) {
    const std::size_t before = open_files();
    const auto start = std::chrono::steady_clock::now();
    const BoundedResult result = run_bounded(50ms, []() -> std::vector<double> {
        for (;;) std::this_thread::sleep_for(1s);
    });
    EXPECT_TRUE(result.timed_out);
    EXPECT_FALSE(result.values);
    EXPECT_LT(std::chrono::steady_clock::now() - start, 5s);
    EXPECT_EQ(open_files(), before);
    expect_no_children();
}

TEST(Bounded, ACrashIsAnError) {
    const BoundedResult result = run_bounded(10s, []() -> std::vector<double> {
        raise(SIGKILL);
        return {};
    });
    EXPECT_FALSE(result.values);
    EXPECT_FALSE(result.timed_out);
    EXPECT_EQ(result.error, "the layout process was ended by signal 9");
    expect_no_children();
}

TEST(Bounded, AnExceptionIsAnError) {
    const BoundedResult result = run_bounded(10s, []() -> std::vector<double> { throw std::runtime_error("lost"); });
    EXPECT_FALSE(result.values);
    EXPECT_EQ(result.error, "the layout process ended with status 2");
}

TEST(Bounded, TheChildIsSilent) {
    ::testing::internal::CaptureStderr();
    ::testing::internal::CaptureStdout();
    run_bounded(10s, [] {
        std::cerr << "trouble\n" << std::flush;
        std::cout << "trouble\n" << std::flush;
        return std::vector<double>();
    });
    EXPECT_EQ(::testing::internal::GetCapturedStderr(), "");
    EXPECT_EQ(::testing::internal::GetCapturedStdout(), "");
}

}  // namespace
}  // namespace ligament
