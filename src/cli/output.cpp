#include "output.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cctype>
#include <cerrno>
#include <cstdlib>
#include <filesystem>
#include <system_error>
#include <utility>

#include "status.hpp"
#include "stop.hpp"

namespace ligament::cli {

std::string reason_of(int error) {
    std::string reason = std::generic_category().message(error);
    if (!reason.empty()) reason[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(reason[0])));
    return reason;
}

namespace {

// Links are followed, so that writing through one replaces what it points at, not the link.
std::string resolved(const std::string& path) {
    std::error_code error;
    const std::filesystem::path real = std::filesystem::weakly_canonical(path, error);
    return error ? path : real.string();
}

mode_t mode_of_new_files() {
    const mode_t mask = umask(0);
    umask(mask);
    return static_cast<mode_t>(0666 & ~mask);
}

}  // namespace

DescriptorBuffer::DescriptorBuffer(int descriptor, bool is_direct) : descriptor_(descriptor), is_direct_(is_direct) {
    setp(buffer_.data(), buffer_.data() + buffer_.size());
}

bool DescriptorBuffer::drain() {
    const char* next = pbase();
    if (is_direct_ && next < pptr()) note_direct_output();
    while (next < pptr() && error_ == 0) {
        const ssize_t written = write(descriptor_, next, static_cast<std::size_t>(pptr() - next));
        if (written >= 0)
            next += written;
        else if (errno != EINTR)
            error_ = errno;
    }
    setp(buffer_.data(), buffer_.data() + buffer_.size());
    return error_ == 0;
}

DescriptorBuffer::int_type DescriptorBuffer::overflow(int_type character) {
    if (!drain()) return traits_type::eof();
    if (!traits_type::eq_int_type(character, traits_type::eof())) sputc(traits_type::to_char_type(character));
    return traits_type::not_eof(character);
}

int DescriptorBuffer::sync() { return drain() ? 0 : -1; }

Output::Output(const std::string& path) : name_('"' + path + '"') {
    if (path == "-") {
        name_ = "standard output";
        descriptor_ = STDOUT_FILENO;
    } else {
        struct stat status {};
        const bool exists = stat(path.c_str(), &status) == 0;
        if (exists && S_ISDIR(status.st_mode)) fail(EISDIR);
        owned_ = true;
        if (exists && !S_ISREG(status.st_mode)) {
            descriptor_ = open(path.c_str(), O_WRONLY | O_CLOEXEC);
            if (descriptor_ == -1) fail(errno);
        } else {
            if (exists && access(path.c_str(), W_OK) != 0) fail(errno);
            target_ = resolved(path);
            open_beside(static_cast<int>(exists ? status.st_mode & 07777 : mode_of_new_files()));
        }
    }
    buffer_ = std::make_unique<DescriptorBuffer>(descriptor_, !temporary_.is_watched());
    stream_ = std::make_unique<std::ostream>(buffer_.get());
}

void Output::open_beside(int mode) {
    std::string name = target_ + ".XXXXXX";
    int error = 0;
    {
        const StopsHeld held;
        descriptor_ = mkostemp(name.data(), O_CLOEXEC);
        if (descriptor_ == -1)
            error = errno;
        else
            temporary_.watch(std::move(name));
    }
    if (error != 0) fail(error, error == EACCES ? "no file may be made in its folder: " : "");
    if (fchmod(descriptor_, static_cast<mode_t>(mode)) != 0) fail(errno);
}

Output::~Output() {
    if (owned_ && descriptor_ != -1) close(descriptor_);
}

bool Output::is_terminal() const { return isatty(descriptor_) == 1; }

void Output::fail(int error, const std::string& where) {
    // The constructor may be the caller, and then no destructor runs.
    if (owned_ && descriptor_ != -1) close(std::exchange(descriptor_, -1));
    throw Unusable("cannot write " + name_ + ": " + where + reason_of(error));
}

void Output::commit() {
    stream_->flush();
    if (buffer_->error() != 0) fail(buffer_->error());
    if (temporary_.is_watched() && fsync(descriptor_) != 0) fail(errno);
    if (owned_ && close(std::exchange(descriptor_, -1)) != 0) fail(errno);
    const StopsHeld held;
    if (temporary_.is_watched() && rename(temporary_.path().c_str(), target_.c_str()) != 0) fail(errno);
    temporary_.keep();
    note_finished_output();
}

}  // namespace ligament::cli
