// How does the content of a file or of standard input get to the reader of its format?
#include <sys/stat.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <memory>

#include "formats.hpp"

namespace ligament {

namespace {

struct CloseFile {
    void operator()(std::FILE* file) const { std::fclose(file); }
};

// Reads to the end; false with errno set where it cannot.
bool read_all(std::FILE* file, std::string& content) {
    struct stat status {};
    // One more than the size, so that the end is met without growing the buffer.
    if (::fstat(::fileno(file), &status) == 0 && S_ISREG(status.st_mode) && status.st_size > 0)
        content.resize(static_cast<std::size_t>(status.st_size) + 1);
    std::size_t size = 0;
    for (;;) {
        if (size == content.size()) content.resize(content.size() < 65'536 ? 65'536 : content.size() * 2);
        const std::size_t count = std::fread(content.data() + size, 1, content.size() - size, file);
        size += count;
        if (count == 0) break;
    }
    content.resize(size);
    return std::ferror(file) == 0;
}

ReadResult unreadable(const std::string& path) {
    ReadResult result;
    result.faults.push_back({{0, 0}, "cannot read \"" + path + "\": " + std::strerror(errno)});
    return result;
}

}  // namespace

ReadResult read_rig_file(const std::string& path) {
    std::string content;
    if (path == "-") {
        if (!read_all(stdin, content)) return unreadable("standard input");
    } else {
        const std::unique_ptr<std::FILE, CloseFile> file(std::fopen(path.c_str(), "rb"));
        if (!file || !read_all(file.get(), content)) return unreadable(path);
    }
    for (const Format& format : all_formats())
        if (format.recognises(path, content)) return format.read(content);
    return {};
}

}  // namespace ligament
