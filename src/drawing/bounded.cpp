// How is work that may run for hours, or crash, kept from taking us with it?
#include "bounded.hpp"

#include <fcntl.h>
#include <poll.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <clocale>
#include <csignal>
#include <cstring>
#include <utility>

namespace ligament {

namespace {

bool write_all(int to, const void* data, std::size_t size) {
    const char* at = static_cast<const char*>(data);
    while (size > 0) {
        const ssize_t written = write(to, at, size);
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) return false;
        at += written;
        size -= static_cast<std::size_t>(written);
    }
    return true;
}

/// Never returns, and runs no destructor or exit handler of the parent's: they are the parent's to run.
[[noreturn]] void work_as_child(int to, std::chrono::milliseconds limit, const BoundedWork& work) {
    const int nowhere = open("/dev/null", O_WRONLY | O_CLOEXEC);
    if (nowhere >= 0) dup2(nowhere, STDERR_FILENO);
    if (nowhere >= 0) dup2(nowhere, STDOUT_FILENO);
    for (int signal : {SIGSEGV, SIGABRT, SIGBUS, SIGFPE, SIGILL, SIGTERM, SIGPIPE}) std::signal(signal, SIG_DFL);
    // Should the parent be killed, nobody ends us from outside: the processor time that we may use ends us, and no core is left.
    const rlimit none{0, 0};
    setrlimit(RLIMIT_CORE, &none);
    const auto seconds = static_cast<rlim_t>(limit.count() / 1000 + 2);
    const rlimit time{seconds, seconds};
    setrlimit(RLIMIT_CPU, &time);
    std::setlocale(LC_ALL, "C");  // Graphviz reads numbers in the locale of the process
    int status = 1;
    try {
        const std::string bytes = work();
        if (write_all(to, bytes.data(), bytes.size())) status = 0;
    } catch (...) {
        status = 2;
    }
    _exit(status);
}

std::string how_it_ended(int status) {
    if (WIFSIGNALED(status)) return "the layout process was ended by signal " + std::to_string(WTERMSIG(status));
    if (WIFEXITED(status)) return "the layout process ended with status " + std::to_string(WEXITSTATUS(status));
    return "the layout process was lost";
}

/// A child at work, and what came of it so far.
struct Running {
    std::size_t work = 0;
    pid_t child = -1;
    int from = -1;
    std::chrono::steady_clock::time_point end;
    std::string bytes;
};

using Clock = std::chrono::steady_clock;

/// Starts a work; false, with the result told, where there is no pipe or process for it.
bool start(Running& running, const BoundedWork& work, std::chrono::milliseconds limit, const std::vector<Running>& others,
           BoundedResult& result) {
    int ends[2];
    if (pipe2(ends, O_CLOEXEC) != 0) {
        result.error = std::string("no pipe to the layout process: ") + std::strerror(errno);
        return false;
    }
    running.end = Clock::now() + limit;
    running.child = fork();
    if (running.child == 0) {
        close(ends[0]);
        for (const Running& other : others) close(other.from);
        work_as_child(ends[1], limit, work);
    }
    const int fork_error = errno;
    close(ends[1]);
    running.from = ends[0];
    if (running.child > 0) return true;
    close(ends[0]);
    result.error = std::string("no process for the layout: ") + std::strerror(fork_error);
    return false;
}

enum class Ending { open, complete, timed_out, failed };

/// Reads what has come.
Ending read_some(Running& running, bool is_ready) {
    if (is_ready) {
        std::array<char, 65536> buffer;
        const ssize_t got = read(running.from, buffer.data(), buffer.size());
        if (got == 0) return Ending::complete;
        if (got < 0 && errno != EINTR) return Ending::failed;
        if (got > 0) running.bytes.append(buffer.data(), static_cast<std::size_t>(got));
    }
    return Clock::now() < running.end ? Ending::open : Ending::timed_out;
}

void end(Running& running, Ending ending, BoundedResult& result) {
    close(running.from);
    if (ending != Ending::complete) kill(running.child, SIGKILL);
    int status = 0;
    while (waitpid(running.child, &status, 0) < 0 && errno == EINTR) {
    }
    result.timed_out = ending == Ending::timed_out;
    if (result.timed_out) return;
    if (ending == Ending::complete && WIFEXITED(status) && WEXITSTATUS(status) == 0)
        result.bytes = std::move(running.bytes);
    else
        result.error = how_it_ended(status);
}

/// Waits until one of them has something to say or the first one's time is up.
std::vector<bool> wait_for(const std::vector<Running>& running) {
    std::vector<pollfd> wanted;
    auto first_end = running.front().end;
    for (const Running& one : running) {
        wanted.push_back({one.from, POLLIN, 0});
        first_end = std::min(first_end, one.end);
    }
    const auto left = std::chrono::ceil<std::chrono::milliseconds>(first_end - Clock::now()).count();
    poll(wanted.data(), wanted.size(), static_cast<int>(std::clamp<decltype(left)>(left, 0, 1'000'000)));
    std::vector<bool> ready;
    for (const pollfd& one : wanted) ready.push_back(one.revents != 0);
    return ready;
}

}  // namespace

std::vector<BoundedResult> run_bounded(const std::vector<BoundedWork>& works, std::chrono::milliseconds limit, unsigned workers) {
    std::vector<BoundedResult> results(works.size());
    std::vector<Running> running;
    std::size_t next = 0;
    while (next < works.size() || !running.empty()) {
        while (next < works.size() && running.size() < std::max(workers, 1u)) {
            Running one;
            one.work = next;
            if (start(one, works[next], limit, running, results[next])) running.push_back(std::move(one));
            ++next;
        }
        if (running.empty()) continue;
        const std::vector<bool> ready = wait_for(running);
        std::vector<Running> left;
        for (std::size_t i = 0; i < running.size(); ++i) {
            const Ending ending = read_some(running[i], ready[i]);
            if (ending == Ending::open)
                left.push_back(std::move(running[i]));
            else
                end(running[i], ending, results[running[i].work]);
        }
        running = std::move(left);
    }
    return results;
}

}  // namespace ligament
