// What must not be left behind when a call ends half way?
#pragma once

#include <atomic>
#include <string>

namespace ligament::cli {

/// A file or folder that is taken away again unless it is kept: by the destructor, or by take_away_unfinished() where a signal
/// ends the program. A folder goes only if it is empty. All of them hang in one chain, which a signal handler may walk at any
/// moment.
class Unfinished {
  public:
    enum class Kind { file, folder };

    explicit Unfinished(Kind kind) : kind_(kind) {}
    ~Unfinished();
    Unfinished(const Unfinished&) = delete;
    Unfinished& operator=(const Unfinished&) = delete;

    /// Once at most. Signals should be held (StopsHeld) from before it is made, or one in between leaves it behind.
    void watch(std::string path);
    void keep();

    bool is_watched() const { return !path_.empty(); }
    const std::string& path() const { return path_; }

  private:
    friend void take_away_unfinished() noexcept;
    void take_away() const noexcept;

    Kind kind_;
    std::string path_;
    std::atomic<Unfinished*> next_ = nullptr;
};

/// Takes away all that is watched, the newest first. For a process that ends now; may be called from a signal handler.
void take_away_unfinished() noexcept;

}  // namespace ligament::cli
