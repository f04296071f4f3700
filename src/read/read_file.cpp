// How does the content of a file or of standard input get to the reader of its format?
#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <memory>

#include "chosen_controls.hpp"
#include "formats.hpp"
#include "ligament/whole_file.hpp"

namespace ligament {

namespace {

struct CloseFile {
    void operator()(std::FILE* file) const { std::fclose(file); }
};

enum class Reading { complete, failed, too_large };

// Reads to the end, or a little further than `limit`. Where it fails errno says why. A string has to fill what it grows by; done
// piece by piece, that happens in the cache, and no page is touched that the content does not reach.
Reading read_all(std::FILE* file, std::size_t limit, std::string& content) {
    constexpr std::size_t piece = 65'536;
    struct stat status {};
    content.clear();
    if (::fstat(::fileno(file), &status) == 0 && S_ISREG(status.st_mode) && status.st_size > 0) {
        if (static_cast<std::uintmax_t>(status.st_size) > limit) return Reading::too_large;
        // One more than the size, so that the end is met without growing the buffer.
        content.reserve(static_cast<std::size_t>(status.st_size) + 1);
    }
    for (;;) {
        const std::size_t size = content.size();
        if (size == content.capacity()) content.reserve(std::max(piece, 2 * size));
        content.resize(std::min(size + piece, content.capacity()));
        const std::size_t count = std::fread(content.data() + size, 1, content.size() - size, file);
        content.resize(size + count);
        if (content.size() > limit) return Reading::too_large;
        if (count == 0) break;
    }
    return std::ferror(file) == 0 ? Reading::complete : Reading::failed;
}

ReadResult unreadable(const std::string& path, const std::string& reason) {
    ReadResult result;
    result.faults.push_back({{0, 0}, "cannot read \"" + path + "\": " + reason, {}});
    return result;
}

}  // namespace

std::string read_whole_file(const std::string& path, std::size_t limit, std::string& content) {
    const std::unique_ptr<std::FILE, CloseFile> opened(path == "-" ? nullptr : std::fopen(path.c_str(), "rb"));
    std::FILE* file = path == "-" ? stdin : opened.get();
    if (file == nullptr) return std::strerror(errno);
    switch (read_all(file, limit, content)) {
        case Reading::failed:
            return std::strerror(errno);
        case Reading::too_large:
            return "it is larger than " + std::to_string(limit) + " bytes, the most that is read";
        case Reading::complete:
            break;
    }
    return {};
}

ReadResult read_rig_file(const std::string& path, const ReadOptions& options) {
    std::string content;
    const std::string reason = read_whole_file(path, options.file_limit, content);
    if (!reason.empty()) return unreadable(path == "-" ? "standard input" : path, reason);
    for (const Format& format : all_formats())
        if (format.recognises({path, content})) {
            ReadResult result = format.read({path, content}, options);
            choose_controls(result, options.controls);
            return result;
        }
    return {};
}

}  // namespace ligament
