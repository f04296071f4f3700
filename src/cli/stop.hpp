// What ends a call before it is done, and what is left then?
#pragma once

#include <csignal>
#include <string>

namespace ligament::cli {

/// Holds back the signals that end a call, for as long as what stands on disk and what is known of it may differ.
class StopsHeld {
  public:
    StopsHeld();
    ~StopsHeld();
    StopsHeld(const StopsHeld&) = delete;
    StopsHeld& operator=(const StopsHeld&) = delete;

  private:
    sigset_t before_;
};

/// From now on Ctrl-C, SIGTERM, SIGHUP and want of memory take away what is unfinished, end layouts and say one line. After a
/// signal the program then ends by that signal, so that shells see it. What was ignored when the program was started stays so.
void heed_stops();

/// The call ends in so many seconds of wall-clock time from now, with status `unusable` and `words`.
void stop_after(double seconds, const std::string& words);

/// Which bound on memory holds and where it comes from, for messages: "the limit is 8G (--max-memory)".
void set_memory_bound(const std::string& words);
std::string memory_bound();

/// Ends the call with status `unusable`: memory ran out.
[[noreturn]] void stop_for_memory() noexcept;

/// Bytes are about to go where they cannot be taken back: to standard output, a pipe or a device.
void note_direct_output();

/// An output is whole: a file stands under its name, or all bytes of a direct output are out.
void note_finished_output();

}  // namespace ligament::cli
