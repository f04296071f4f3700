// Reads a rig description and says which of its bones go round in a circle and which deform bones no control moves.
#include <iostream>

#include "ligament/facts.hpp"
#include "ligament/read.hpp"

int main(int count, char** words) {
    if (count != 2) {
        std::cerr << "usage: first_look RIG\n";
        return 2;
    }
    const ligament::ReadResult result = ligament::read_rig_file(words[1]);
    for (const ligament::Fault& fault : result.faults)
        std::cerr << words[1] << ':' << fault.place.line << ':' << fault.place.column << ": " << fault.message << '\n';
    if (!result.rig) return 2;

    const ligament::Rig& rig = *result.rig;
    const ligament::Dependencies dependencies = ligament::build_dependencies(rig);
    for (const ligament::Cycle& cycle : ligament::find_cycles(rig, dependencies)) {
        std::cout << "cycle at " << name_of(cycle.grain) << " grain:";
        for (const ligament::FoldedEdge& edge : cycle.witness)
            std::cout << ' ' << (cycle.bones.empty() ? rig.properties[edge.from].name : rig.bones[edge.from].name) << " ->";
        std::cout << " and round again\n";
    }
    const ligament::AttachmentFacts facts = find_attachment(rig, dependencies, ligament::default_state(rig));
    for (const ligament::Attachment& attachment : facts.deform)
        if (attachment.verdict != ligament::Verdict::attached)
            std::cout << rig.bones[attachment.bone].name << " is " << name_of(attachment.verdict) << '\n';
}
