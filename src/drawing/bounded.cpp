// How is work that may run for hours, or crash, kept from taking us with it?
#include "bounded.hpp"

#include <fcntl.h>
#include <poll.h>
#include <sys/mman.h>
#ifdef __linux__
#include <sys/prctl.h>
#endif
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cerrno>
#include <clocale>
#include <csignal>
#include <cstring>
#include <new>
#include <utility>

#include "ligament/drawing.hpp"

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

/// How a child exits; 1 is left to Graphviz.
enum ChildStatus { sent = 0, has_thrown = 2, is_out_of_memory = 3, cannot_send = 4 };

/// Whether even this little is not to be had any more. Graphviz does not look at what it is given: it crashes, and asking again
/// tells why.
bool is_memory_gone() {
    constexpr std::size_t little = std::size_t{4} << 20;
    void* got = mmap(nullptr, little, PROT_NONE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    if (got == MAP_FAILED) return true;
    munmap(got, little);
    return false;
}

extern "C" void explain_crash(int signal) {
    if (is_memory_gone()) _exit(is_out_of_memory);
    std::signal(signal, SIG_DFL);
    raise(signal);
}

/// The parent's handlers speak for the parent alone. What is ignored stays so.
void forget_handlers() {
    for (int signal = 1; signal < SIGRTMAX; ++signal) {
        struct sigaction now {};
        if (sigaction(signal, nullptr, &now) == 0 && now.sa_handler != SIG_IGN) std::signal(signal, SIG_DFL);
    }
    std::signal(SIGPIPE, SIG_DFL);
    std::set_new_handler(nullptr);
}

void explain_crashes() {
    static std::array<char, 65536> stack;  // that of the work may be what is full
    stack_t other{};
    other.ss_sp = stack.data();
    other.ss_size = stack.size();
    sigaltstack(&other, nullptr);
    struct sigaction action {};
    action.sa_handler = explain_crash;
    action.sa_flags = SA_ONSTACK;
    for (int signal : {SIGSEGV, SIGABRT, SIGBUS}) sigaction(signal, &action, nullptr);
}

/// No child outlives a parent that was killed. Where the system cannot promise it, the processor time that a child may use ends
/// it.
void end_with(pid_t parent) {
#ifdef __linux__
    prctl(PR_SET_PDEATHSIG, SIGKILL);
#endif
    if (getppid() != parent) _exit(cannot_send);
}

/// Never returns, and runs no destructor or exit handler of the parent's: they are the parent's to run.
[[noreturn]] void work_as_child(int to, std::chrono::milliseconds limit, const BoundedWork& work) {
    explain_crashes();
    const int nowhere = open("/dev/null", O_WRONLY | O_CLOEXEC);
    if (nowhere >= 0) dup2(nowhere, STDERR_FILENO);
    if (nowhere >= 0) dup2(nowhere, STDOUT_FILENO);
    const rlimit none{0, 0};  // no core is left
    setrlimit(RLIMIT_CORE, &none);
    const auto seconds = static_cast<rlim_t>(limit.count() / 1000 + 2);
    const rlimit time{seconds, seconds};
    setrlimit(RLIMIT_CPU, &time);
    std::setlocale(LC_ALL, "C");  // Graphviz reads numbers in the locale of the process
    int status = cannot_send;
    try {
        const std::string bytes = work();
        if (write_all(to, bytes.data(), bytes.size())) status = sent;
    } catch (const std::bad_alloc&) {
        status = is_out_of_memory;
    } catch (...) {
        status = is_memory_gone() ? is_out_of_memory : has_thrown;
    }
    _exit(status);
}

std::string how_it_ended(int status) {
    if (WIFSIGNALED(status)) return "the layout process was ended by signal " + std::to_string(WTERMSIG(status));
    if (WIFEXITED(status) && WEXITSTATUS(status) == is_out_of_memory) return "the layout ran out of memory";
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

// The children at work, for end_layouts; 0 where there is none.
std::array<std::atomic<pid_t>, 256> children{};
static_assert(std::atomic<pid_t>::is_always_lock_free);

void note_child(pid_t child) {
    for (std::atomic<pid_t>& place : children) {
        pid_t nobody = 0;
        if (place.compare_exchange_strong(nobody, child)) return;
    }
}

void forget_child(pid_t child) {
    for (std::atomic<pid_t>& place : children) {
        pid_t wanted = child;
        if (place.compare_exchange_strong(wanted, 0)) return;
    }
}

/// No signal comes in while it lives: none finds a child that is not noted, or that still has its parent's handlers.
class SignalsHeld {
  public:
    SignalsHeld() {
        sigset_t all;
        sigfillset(&all);
        sigprocmask(SIG_SETMASK, &all, &before_);
    }
    ~SignalsHeld() { release(); }
    SignalsHeld(const SignalsHeld&) = delete;
    SignalsHeld& operator=(const SignalsHeld&) = delete;

    void release() const { sigprocmask(SIG_SETMASK, &before_, nullptr); }

  private:
    sigset_t before_;
};

/// Starts a work; false, with the result told, where there is no pipe or process for it.
bool start(Running& running, const BoundedWork& work, std::chrono::milliseconds limit, const std::vector<Running>& others,
           BoundedResult& result) {
    int ends[2];
    if (pipe2(ends, O_CLOEXEC) != 0) {
        result.error = std::string("no pipe to the layout process: ") + std::strerror(errno);
        return false;
    }
    running.end = Clock::now() + limit;
    const pid_t parent = getpid();
    const SignalsHeld held;
    running.child = fork();
    if (running.child == 0) {
        forget_handlers();
        held.release();
        end_with(parent);
        close(ends[0]);
        for (const Running& other : others) close(other.from);
        work_as_child(ends[1], limit, work);
    }
    const int fork_error = errno;
    close(ends[1]);
    running.from = ends[0];
    if (running.child > 0) {
        note_child(running.child);
        return true;
    }
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

/// Gives the status with which the child ended.
int wait_for_end(Running& running) noexcept {
    close(running.from);
    forget_child(running.child);  // before its number can be another's
    int status = 0;
    while (waitpid(running.child, &status, 0) < 0 && errno == EINTR) {
    }
    running.child = -1;
    return status;
}

void end(Running& running, Ending ending, BoundedResult& result) {
    if (ending != Ending::complete) kill(running.child, SIGKILL);
    const int status = wait_for_end(running);
    result.timed_out = ending == Ending::timed_out;
    if (result.timed_out) return;
    result.out_of_memory = WIFEXITED(status) && WEXITSTATUS(status) == is_out_of_memory;
    if (ending == Ending::complete && WIFEXITED(status) && WEXITSTATUS(status) == sent)
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

/// Those at work. None is left behind when memory runs out half way.
struct Crew {
    std::vector<Running> running;

    ~Crew() {
        for (Running& one : running) {
            if (one.child <= 0) continue;
            kill(one.child, SIGKILL);
            wait_for_end(one);
        }
    }
};

void read_from(Crew& crew, std::vector<BoundedResult>& results) {
    const std::vector<bool> ready = wait_for(crew.running);
    for (std::size_t i = ready.size(); i-- > 0;) {
        Running& one = crew.running[i];
        const Ending ending = read_some(one, ready[i]);
        if (ending == Ending::open) continue;
        end(one, ending, results[one.work]);
        if (&one != &crew.running.back()) one = std::move(crew.running.back());
        crew.running.pop_back();
    }
}

}  // namespace

std::vector<BoundedResult> run_bounded(const std::vector<BoundedWork>& works, std::chrono::milliseconds limit, unsigned workers) {
    const std::size_t places = std::clamp<std::size_t>(workers, 1, children.size());
    std::vector<BoundedResult> results(works.size());
    Crew crew;
    crew.running.reserve(places);
    std::size_t next = 0;
    while (next < works.size() || !crew.running.empty()) {
        while (next < works.size() && crew.running.size() < places) {
            Running one;
            one.work = next;
            if (start(one, works[next], limit, crew.running, results[next])) crew.running.push_back(std::move(one));
            ++next;
        }
        if (!crew.running.empty()) read_from(crew, results);
    }
    return results;
}

void end_layouts() noexcept {
    for (const std::atomic<pid_t>& place : children)
        if (const pid_t child = place; child > 0) kill(child, SIGKILL);
}

}  // namespace ligament
