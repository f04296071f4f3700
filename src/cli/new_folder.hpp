// Which folders does a call make for its files, and which of them stay?
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "unfinished.hpp"

namespace ligament::cli {

/// A folder that is there, or that is made now, with those above it. Those that were made are taken away again, unless a file
/// came to stand in them.
class NewFolder {
  public:
    /// Throws Unusable, naming the folder and the reason, when it cannot be made.
    explicit NewFolder(const std::string& path);
    ~NewFolder();
    NewFolder(const NewFolder&) = delete;
    NewFolder& operator=(const NewFolder&) = delete;

  private:
    void take_away();

    std::vector<std::unique_ptr<Unfinished>> made_;
};

}  // namespace ligament::cli
