// How far is a call with many rigs?
#pragma once

#include <cstddef>

namespace ligament::cli {

/// One line on standard error that is written over again and again: nothing where that is no terminal, or a dumb one.
class Progress {
  public:
    explicit Progress(std::size_t all);
    ~Progress() { clear(); }
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;

    void show(std::size_t done);
    /// To be done before anything else is written.
    void clear();

  private:
    std::size_t all_;
    bool is_wanted_;
    bool is_shown_ = false;
};

}  // namespace ligament::cli
