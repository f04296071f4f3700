// How is work that may run for hours, or crash, kept from taking us with it?
#include "bounded.hpp"

#include <fcntl.h>
#include <poll.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <clocale>
#include <csignal>
#include <cstring>

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
[[noreturn]] void work_as_child(int to, std::chrono::milliseconds limit, const std::function<std::vector<double>()>& work) {
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
    std::setlocale(LC_ALL, "C");  // numbers are read back in it
    int status = 1;
    try {
        const std::vector<double> values = work();
        const std::size_t count = values.size();
        if (write_all(to, &count, sizeof count) && write_all(to, values.data(), count * sizeof(double))) status = 0;
    } catch (...) {
        status = 2;
    }
    _exit(status);
}

enum class Ending { complete, timed_out, failed };

/// Reads until the other end closes or the time is up.
Ending read_until(int from, std::chrono::steady_clock::time_point end, std::vector<char>& bytes) {
    std::array<char, 65536> buffer{};
    for (;;) {
        const auto left = std::chrono::ceil<std::chrono::milliseconds>(end - std::chrono::steady_clock::now());
        if (left.count() <= 0) return Ending::timed_out;
        pollfd wanted{from, POLLIN, 0};
        const int ready = poll(&wanted, 1, static_cast<int>(std::min<std::chrono::milliseconds::rep>(left.count(), 1'000'000)));
        if (ready < 0 && errno == EINTR) continue;
        if (ready < 0) return Ending::failed;
        if (ready == 0) continue;
        const ssize_t got = read(from, buffer.data(), buffer.size());
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return Ending::failed;
        if (got == 0) return Ending::complete;
        bytes.insert(bytes.end(), buffer.data(), buffer.data() + got);
    }
}

std::optional<std::vector<double>> values_in(const std::vector<char>& bytes) {
    std::size_t count = 0;
    if (bytes.size() < sizeof count) return std::nullopt;
    std::memcpy(&count, bytes.data(), sizeof count);
    if (bytes.size() != sizeof count + count * sizeof(double)) return std::nullopt;
    std::vector<double> values(count);
    if (count > 0) std::memcpy(values.data(), bytes.data() + sizeof count, count * sizeof(double));
    return values;
}

std::string how_it_ended(int status) {
    if (WIFSIGNALED(status)) return "the layout process was ended by signal " + std::to_string(WTERMSIG(status));
    if (WIFEXITED(status)) return "the layout process ended with status " + std::to_string(WEXITSTATUS(status));
    return "the layout process was lost";
}

}  // namespace

BoundedResult run_bounded(std::chrono::milliseconds limit, const std::function<std::vector<double>()>& work) {
    const auto end = std::chrono::steady_clock::now() + limit;
    BoundedResult result;
    int ends[2];
    if (pipe2(ends, O_CLOEXEC) != 0) {
        result.error = std::string("no pipe to the layout process: ") + std::strerror(errno);
        return result;
    }
    const pid_t child = fork();
    if (child == 0) {
        close(ends[0]);
        work_as_child(ends[1], limit, work);
    }
    const int fork_error = errno;
    close(ends[1]);
    if (child < 0) {
        close(ends[0]);
        result.error = std::string("no process for the layout: ") + std::strerror(fork_error);
        return result;
    }
    std::vector<char> bytes;
    const Ending ending = read_until(ends[0], end, bytes);
    close(ends[0]);
    if (ending != Ending::complete) kill(child, SIGKILL);
    int status = 0;
    while (waitpid(child, &status, 0) < 0 && errno == EINTR) {
    }
    result.timed_out = ending == Ending::timed_out;
    if (result.timed_out) return result;
    if (WIFEXITED(status) && WEXITSTATUS(status) == 0) result.values = values_in(bytes);
    if (!result.values) result.error = how_it_ended(status);
    return result;
}

}  // namespace ligament
