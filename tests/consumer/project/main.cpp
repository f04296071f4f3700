// A program of someone else's: reads a rig, prints its evaluation order and verdicts, and draws it.
#include <ligament/checks.hpp>
#include <ligament/drawing.hpp>
#include <ligament/facts.hpp>
#include <ligament/read.hpp>
#include <ligament/report.hpp>
#include <ligament/version.hpp>

#include <fstream>
#include <iostream>

int main(int argc, char** argv) {
    if (argc != 3 || ligament::version().empty()) return 2;
    const ligament::ReadResult read = ligament::read_rig_file(argv[1]);
    for (const ligament::Fault& fault : read.faults) std::cerr << fault.place.line << ": " << fault.message << '\n';
    if (!read.rig) return 2;
    const ligament::Rig& rig = *read.rig;
    const ligament::Dependencies dependencies = ligament::build_dependencies(rig);
    const ligament::Facts facts = ligament::find_facts(rig, dependencies);

    std::cout << "order:";
    for (ligament::BoneId bone : facts.order.bones) std::cout << ' ' << rig.bones[bone].name;
    std::cout << '\n';
    for (const ligament::Attachment& attachment : facts.attachment.deform)
        std::cout << rig.bones[attachment.bone].name << ": " << ligament::name_of(attachment.verdict) << '\n';
    for (const ligament::Finding& finding : ligament::find_findings(rig, dependencies, facts))
        std::cout << ligament::name_of(finding.severity) << ": " << finding.check << '\n';

    const ligament::Drawing drawing = ligament::draw(rig, dependencies, facts, {});
    std::ofstream(argv[2]) << drawing.pages.at(0).svg;
    return drawing.pages.empty() ? 1 : 0;
}
