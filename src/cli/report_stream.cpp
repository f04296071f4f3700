#include "report_stream.hpp"

#include <algorithm>

#include "status.hpp"
#include "terminal.hpp"

namespace ligament::cli {

const ReportFormat& format_named(std::string_view name) {
    const auto formats = all_report_formats();
    return *std::find_if(formats.begin(), formats.end(), [&](const ReportFormat& format) { return format.name == name; });
}

Severity severity_named(std::string_view name) {
    return name == "error" ? Severity::error : name == "warning" ? Severity::warning : Severity::note;
}

int status_of(const Totals& totals, std::string_view fail_on) {
    if (totals.unreadable > 0) return unusable;
    const bool is_failing =
        totals.errors > 0 || (fail_on != "error" && totals.warnings > 0) || (fail_on == "note" && totals.notes > 0);
    return is_failing ? found : fine;
}

const TextStyle& ReportStream::style() {
    if (output_) return style_;
    output_.emplace(name_);
    style_ = style_for(*output_, colour_);
    style_.failing = failing_;
    return style_;
}

void ReportStream::add(const Write& write) {
    style();
    if (is_enclosed_) is_begun_ ? format_.between(output_->stream()) : format_.open(output_->stream());
    is_begun_ = true;
    write(output_->stream(), style_);
}

void ReportStream::flush() {
    if (output_) output_->stream().flush();
}

bool ReportStream::close(const Totals& totals) {
    if (!is_begun_) return false;
    if (is_enclosed_) format_.close(output_->stream(), totals, style_);
    output_->commit();
    return true;
}

}  // namespace ligament::cli
