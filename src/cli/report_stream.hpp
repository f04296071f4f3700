// How do the reports of a call become one output?
#pragma once

#include <functional>
#include <optional>
#include <ostream>
#include <string>

#include "ligament/report.hpp"
#include "output.hpp"

namespace ligament::cli {

/// The format of that name; there must be one.
const ReportFormat& format_named(std::string_view name);

/// note, warning or error.
Severity severity_named(std::string_view name);

/// The exit status that totals stand for.
int status_of(const Totals& totals, std::string_view fail_on);

/// Reports one after the other, with what the format has around and between them. The output is opened by the first that there
/// is, so that faults alone replace no file.
class ReportStream {
  public:
    using Write = std::function<void(std::ostream&, const TextStyle&)>;

    ReportStream(const ReportFormat& format, std::string output, std::string colour, std::string_view fail_on, bool is_enclosed)
        : format_(format),
          name_(std::move(output)),
          colour_(std::move(colour)),
          failing_(severity_named(fail_on)),
          is_enclosed_(is_enclosed || format.has_envelope) {}

    /// Opens the output, if that is not done yet.
    const TextStyle& style();
    void add(const Write& write);
    /// So that on a terminal faults stand where their rig does.
    void flush();
    /// False where there was nothing to write.
    bool close(const Totals& totals);

  private:
    const ReportFormat& format_;
    std::string name_, colour_;
    Severity failing_;
    bool is_enclosed_;
    bool is_begun_ = false;
    std::optional<Output> output_;
    TextStyle style_;
};

}  // namespace ligament::cli
