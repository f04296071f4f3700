#include "stop.hpp"

#include <sys/time.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <cstddef>
#include <cstring>
#include <new>
#include <string_view>

#include "ligament/drawing.hpp"
#include "status.hpp"
#include "unfinished.hpp"

namespace ligament::cli {

namespace {

// All that a signal handler does or reads here is safe in one: system calls, lock-free atomics, and text that was put in place
// before. Threads that check or look for facts hold all signals, so that it runs in the thread that writes.

constexpr std::array interruptions{SIGINT, SIGTERM, SIGHUP};

std::atomic<bool> is_output_incomplete = false, is_any_output_finished = false;
static_assert(std::atomic<bool>::is_always_lock_free);

using Words = std::array<char, 256>;
Words timeout_words{}, memory_bound_words{"no limit was set yet"};

void put_in(Words& words, std::string_view text) {
    const std::size_t size = std::min(text.size(), words.size() - 1);
    std::copy_n(text.data(), size, words.data());
    words[size] = '\0';
}

const char* outcome() {
    if (is_output_incomplete) return ", the output is incomplete\n";
    if (is_any_output_finished) return ", what was not finished was not written\n";
    return ", nothing was written\n";
}

/// One line in one write, so that no other process's words come in between.
void tell(const char* reason, const char* more) noexcept {
    std::array<char, 1024> line;
    std::size_t size = 0;
    for (const char* part : {"ligament: ", reason, more, outcome()}) {
        const std::size_t length = std::min(std::strlen(part), line.size() - size);
        std::memcpy(line.data() + size, part, length);
        size += length;
    }
    [[maybe_unused]] const ssize_t nobody_left_to_tell = write(STDERR_FILENO, line.data(), size);
}

void clear_up_and_tell(const char* reason, const char* more = "") noexcept {
    take_away_unfinished();
    end_layouts();
    tell(reason, more);
}

extern "C" void stop_at_signal(int signal) {
    if (signal == SIGALRM) {
        clear_up_and_tell(timeout_words.data());
        _exit(unusable);
    }
    clear_up_and_tell("interrupted");
    std::signal(signal, SIG_DFL);
    sigset_t this_one;
    sigemptyset(&this_one);
    sigaddset(&this_one, signal);
    raise(signal);
    sigprocmask(SIG_UNBLOCK, &this_one, nullptr);
    _exit(128 + signal);
}

void call_at(int signal, void (*handler)(int)) {
    struct sigaction action {};
    action.sa_handler = handler;
    sigfillset(&action.sa_mask);
    sigaction(signal, &action, nullptr);
}

bool is_ignored(int signal) {
    struct sigaction now {};
    return sigaction(signal, nullptr, &now) == 0 && now.sa_handler == SIG_IGN;
}

}  // namespace

StopsHeld::StopsHeld() {
    sigset_t held;
    sigemptyset(&held);
    for (int signal : interruptions) sigaddset(&held, signal);
    sigaddset(&held, SIGALRM);
    sigprocmask(SIG_BLOCK, &held, &before_);
}

StopsHeld::~StopsHeld() { sigprocmask(SIG_SETMASK, &before_, nullptr); }

void heed_stops() {
    for (int signal : interruptions)
        if (!is_ignored(signal)) call_at(signal, stop_at_signal);
    // The end comes here, not by an exception: clearing up after one may itself want memory, and in a destructor that is fatal.
    std::set_new_handler(stop_for_memory);
}

void stop_after(double seconds, const std::string& words) {
    put_in(timeout_words, words);
    call_at(SIGALRM, stop_at_signal);
    sigset_t alarm;
    sigemptyset(&alarm);
    sigaddset(&alarm, SIGALRM);
    sigprocmask(SIG_UNBLOCK, &alarm, nullptr);  // who started us may have had it blocked
    const double whole = std::floor(seconds);
    itimerval time{};
    time.it_value.tv_sec = static_cast<time_t>(whole);
    time.it_value.tv_usec = std::max<suseconds_t>(static_cast<suseconds_t>((seconds - whole) * 1e6), whole < 1 ? 1 : 0);
    setitimer(ITIMER_REAL, &time, nullptr);
}

void set_memory_bound(const std::string& words) { put_in(memory_bound_words, words); }

std::string memory_bound() { return memory_bound_words.data(); }

void stop_for_memory() noexcept {
    sigset_t all;
    sigfillset(&all);
    sigprocmask(SIG_BLOCK, &all, nullptr);
    clear_up_and_tell("out of memory: ", memory_bound_words.data());
    _exit(unusable);
}

void note_direct_output() { is_output_incomplete = true; }

void note_finished_output() {
    is_output_incomplete = false;
    is_any_output_finished = true;
}

}  // namespace ligament::cli
