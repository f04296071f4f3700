#include "new_folder.hpp"

#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <filesystem>

#include "output.hpp"
#include "status.hpp"
#include "stop.hpp"

namespace ligament::cli {

namespace {

/// The folders on the way to `path` that are not there, the outermost first.
std::vector<std::string> missing_on_the_way(const std::string& path) {
    std::vector<std::string> missing;
    std::filesystem::path at(path);
    if (!at.has_filename()) at = at.parent_path();
    for (std::error_code ignored; !at.empty() && !std::filesystem::exists(at, ignored); at = at.parent_path())
        missing.push_back(at.string());
    std::reverse(missing.begin(), missing.end());
    return missing;
}

}  // namespace

NewFolder::NewFolder(const std::string& path) {
    for (const std::string& folder : missing_on_the_way(path)) {
        auto made = std::make_unique<Unfinished>(Unfinished::Kind::folder);
        made_.reserve(made_.size() + 1);
        std::string name = folder;
        const StopsHeld held;
        if (mkdir(folder.c_str(), 0777) == 0) {
            made->watch(std::move(name));
            made_.push_back(std::move(made));
        } else if (const int error = errno; error != EEXIST) {
            take_away();
            throw Unusable("cannot make folder \"" + path + "\": " + reason_of(error));
        }
    }
}

void NewFolder::take_away() {
    while (!made_.empty()) made_.pop_back();
}

NewFolder::~NewFolder() { take_away(); }

}  // namespace ligament::cli
