#include "watched.hpp"

#include <poll.h>
#include <sys/inotify.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>

#include "output.hpp"
#include "status.hpp"

namespace ligament::cli {

namespace {

// Editors and exporters write a file in several steps.
constexpr int quiet_ms = 60;

bool has_events(int descriptor, int timeout) {
    pollfd wanted{descriptor, POLLIN, 0};
    int ready = -1;
    do ready = poll(&wanted, 1, timeout);
    while (ready == -1 && errno == EINTR);
    return ready > 0;
}

}  // namespace

WatchedFiles::WatchedFiles() : descriptor_(inotify_init1(IN_CLOEXEC | IN_NONBLOCK)) {
    if (descriptor_ == -1) throw Unusable("files cannot be watched: " + reason_of(errno));
}

WatchedFiles::~WatchedFiles() { close(descriptor_); }

void WatchedFiles::add(const std::string& file) {
    std::error_code error;
    const std::filesystem::path path = std::filesystem::absolute(file, error).lexically_normal();
    const std::string folder = path.parent_path().string();
    constexpr std::uint32_t events = IN_CLOSE_WRITE | IN_MOVED_TO | IN_MOVED_FROM | IN_DELETE | IN_CREATE | IN_ONLYDIR;
    const int watch = inotify_add_watch(descriptor_, folder.c_str(), events);
    if (watch == -1) throw Unusable(folder + ": cannot be watched: " + reason_of(errno));
    names_[watch].insert(path.filename().string());
}

// Whether one of them is about a file that is watched. More events than the system keeps count as one about all.
bool WatchedFiles::read_events() {
    alignas(inotify_event) char buffer[1 << 14];
    bool is_ours = false;
    for (;;) {
        const ssize_t size = read(descriptor_, buffer, sizeof buffer);
        if (size <= 0) return is_ours;
        for (ssize_t at = 0; at < size;) {
            inotify_event event{};
            std::memcpy(&event, buffer + at, sizeof event);
            const auto folder = names_.find(event.wd);
            const char* name = buffer + at + sizeof event;
            if ((event.mask & IN_Q_OVERFLOW) != 0 || (event.len > 0 && folder != names_.end() && folder->second.contains(name)))
                is_ours = true;
            at += static_cast<ssize_t>(sizeof event + event.len);
        }
    }
}

void WatchedFiles::wait_for_change() {
    while (!read_events()) has_events(descriptor_, -1);
    while (has_events(descriptor_, quiet_ms)) read_events();
}

}  // namespace ligament::cli
