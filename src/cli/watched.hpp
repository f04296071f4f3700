// Has one of these files changed?
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

namespace ligament::cli {

/// Waits for changes of files by looking at their folders (inotify(7)), so that a file that an editor replaces, takes away or
/// makes anew is seen too.
class WatchedFiles {
  public:
    /// Throws Unusable where a folder cannot be watched.
    WatchedFiles();
    ~WatchedFiles();
    WatchedFiles(const WatchedFiles&) = delete;
    WatchedFiles& operator=(const WatchedFiles&) = delete;

    void add(const std::string& file);
    /// Comes back when one of the files was written, replaced or taken away, and then nothing more happened to them for a moment.
    void wait_for_change();

  private:
    bool read_events();

    int descriptor_;
    std::map<int, std::set<std::string>> names_;  // by watch of a folder
};

}  // namespace ligament::cli
