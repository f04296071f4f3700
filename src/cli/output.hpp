// Where does output go? To standard output, or to a file that is written whole or not at all.
#pragma once

#include <array>
#include <memory>
#include <ostream>
#include <streambuf>
#include <string>

#include "unfinished.hpp"

namespace ligament::cli {

/// An error number in words, lower case.
std::string reason_of(int error);

/// A buffer over a file descriptor that keeps the error number of the first write that failed.
class DescriptorBuffer : public std::streambuf {
  public:
    /// What is written through a direct one cannot be taken back.
    DescriptorBuffer(int descriptor, bool is_direct);
    int error() const { return error_; }

  protected:
    int_type overflow(int_type character) override;
    int sync() override;

  private:
    bool drain();

    int descriptor_;
    bool is_direct_;
    int error_ = 0;
    std::array<char, 1 << 16> buffer_;
};

/// Output of one command. A file comes to stand under its name only in commit(): until then it is a temporary file beside it,
/// which is taken away again when commit() is not reached or fails. What is no regular file (a pipe, a device) is written to
/// directly.
class Output {
  public:
    /// Standard output for "-". Throws Unusable, naming file and reason, when it cannot be opened.
    explicit Output(const std::string& path = "-");
    ~Output();
    Output(const Output&) = delete;
    Output& operator=(const Output&) = delete;

    std::ostream& stream() { return *stream_; }
    bool is_terminal() const;

    /// Writes what is left and puts the file in its place. Throws Unusable, naming file and reason, when anything was not
    /// written.
    void commit();

  private:
    [[noreturn]] void fail(int error, const std::string& where = {});
    void open_beside(int mode);

    std::string name_;                              // as messages call it
    std::string target_;                            // the file to replace, links resolved; empty when written to directly
    Unfinished temporary_{Unfinished::Kind::file};  // the file beside it, if there is one (still)
    int descriptor_ = -1;
    bool owned_ = false;
    std::unique_ptr<DescriptorBuffer> buffer_;
    std::unique_ptr<std::ostream> stream_;
};

}  // namespace ligament::cli
