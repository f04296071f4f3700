// Do checking and drawing survive any small rig, whichever format it comes in? A cut opens all cycles, reports are written, each
// view is drawn by some input, and what was converted gives the same verdicts.
#include <cstdlib>
#include <sstream>

#include "ligament/drawing.hpp"
#include "ligament/report.hpp"
#include "read_again.hpp"

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size);

namespace {

constexpr std::size_t most_bones = 40;

std::string report_of(const ligament::Rig& rig, const ligament::Dependencies& dependencies, const ligament::Facts& facts) {
    std::ostringstream out;
    const std::vector<ligament::Finding> findings = find_findings(rig, dependencies, facts);
    const ligament::Report report{"rig", rig, dependencies, facts, findings};
    write_text(out, report, {});
    write_json(out, report);
    return out.str();
}

std::string verdicts_of(const ligament::Rig& rig, const ligament::Facts& facts) {
    std::string text;
    for (const ligament::Attachment& attachment : facts.attachment.deform)
        text += rig.bones[attachment.bone].name + " " + std::to_string(static_cast<int>(attachment.verdict)) + "\n";
    for (const ligament::Cycle& cycle : facts.cycles) text += std::to_string(cycle.bones.size()) + " in a cycle\n";
    return text;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    const std::string_view input{reinterpret_cast<const char*>(data), size};
    const bool is_gltf = input.find("\"asset\"") != std::string_view::npos;
    const ligament::ReadResult result = is_gltf ? ligament::read_gltf(input, "") : ligament::read_rig(input);
    if (!result.rig || result.rig->bones.size() > most_bones) return 0;
    const ligament::Rig& rig = *result.rig;
    const ligament::Dependencies dependencies = build_dependencies(rig);
    const ligament::Facts facts = find_facts(rig, dependencies);
    if (report_of(rig, dependencies, facts).empty()) std::abort();
    const ligament::ReadResult converted = ligament::read_rig(write_rig(rig));
    if (!converted.rig) std::abort();
    const ligament::Facts again = find_facts(*converted.rig, build_dependencies(*converted.rig));
    if (verdicts_of(rig, facts) != verdicts_of(*converted.rig, again)) std::abort();
    ligament::DrawingOptions options;
    options.view = static_cast<ligament::View>(size % ligament::view_count);
    options.time_limit = std::chrono::seconds(2);
    options.workers = 1;
    const ligament::Drawing drawing = draw(rig, dependencies, facts, options);
    if (drawing.error.find("signal") != std::string::npos || drawing.error.find("status") != std::string::npos) std::abort();
    return 0;
}
