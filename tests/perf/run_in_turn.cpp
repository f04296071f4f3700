// How long do processes take, and how much memory, run in turn: the first, the second, ..., the first again?
//
// A program of its own, since a process inherits the peak memory of the one that starts it: this one is small, and starts fast.
#include <fcntl.h>
#include <spawn.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <vector>

namespace {

struct Sample {
    double seconds = 0, cpu_seconds = 0;
    long kilobytes = 0;
    int status = 0;  ///< of the process; minus the signal where one ended it
};

double seconds_of(const timeval& time) { return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6; }

pid_t running = 0;

/// Past the time limit. The process was started in a group of its own, so that its children go with it.
void end_it(int) {
    if (running > 0) kill(-running, SIGKILL);
}

/// Nothing is left running where this program is ended itself.
void end_all(int signal) {
    if (running > 0) kill(-running, SIGKILL);
    _exit(128 + signal);
}

Sample run(char** command, unsigned limit) {
    posix_spawn_file_actions_t files;
    posix_spawn_file_actions_init(&files);
    for (const int stream : {1, 2}) posix_spawn_file_actions_addopen(&files, stream, "/dev/null", O_WRONLY, 0);
    posix_spawnattr_t how;
    posix_spawnattr_init(&how);
    posix_spawnattr_setflags(&how, POSIX_SPAWN_SETPGROUP);
    const auto start = std::chrono::steady_clock::now();
    if (posix_spawnp(&running, command[0], &files, &how, command, environ) != 0) {
        std::fprintf(stderr, "run_in_turn: cannot start %s\n", command[0]);
        std::exit(2);
    }
    alarm(limit);
    int status = 0;
    rusage usage{};
    while (wait4(running, &status, 0, &usage) < 0) {
    }
    alarm(0);
    running = 0;
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    posix_spawn_file_actions_destroy(&files);
    posix_spawnattr_destroy(&how);
    return {took.count(), seconds_of(usage.ru_utime) + seconds_of(usage.ru_stime), usage.ru_maxrss,
            WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status)};
}

}  // namespace

// run_in_turn RUNS SECONDS COMMAND ARGUMENT... [-- COMMAND ARGUMENT...]...: what they print goes nowhere. One line of JSON a run:
// which command, wall seconds, processor seconds, peak kilobytes, status. A process that takes more than SECONDS is ended.
int main(int count, char** words) {
    if (count < 4) {
        std::fputs("usage: run_in_turn RUNS SECONDS COMMAND ARGUMENT... [-- COMMAND ARGUMENT...]...\n", stderr);
        return 2;
    }
    const long runs = std::strtol(words[1], nullptr, 10);
    const auto limit = static_cast<unsigned>(std::strtoul(words[2], nullptr, 10));
    std::vector<char**> commands{words + 3};
    for (int i = 3; i < count; ++i)
        if (std::strcmp(words[i], "--") == 0) {
            words[i] = nullptr;
            commands.push_back(words + i + 1);
        }
    struct sigaction action {};
    action.sa_handler = end_it;
    sigaction(SIGALRM, &action, nullptr);
    action.sa_handler = end_all;
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) sigaction(signal, &action, nullptr);
    prctl(PR_SET_PDEATHSIG, SIGTERM);
    for (long r = 0; r < runs; ++r)
        for (std::size_t c = 0; c < commands.size(); ++c) {
            const Sample sample = run(commands[c], limit);
            std::printf("[%zu, %.6f, %.6f, %ld, %d]\n", c, sample.seconds, sample.cpu_seconds, sample.kilobytes, sample.status);
            std::fflush(stdout);
        }
}
