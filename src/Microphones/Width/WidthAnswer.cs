using Athwart.Microphones.Rigs;
using Athwart.Quantities;

namespace Athwart.Microphones.Width;

/// <summary>The side level that a wanted width asks for, or the nearest that the rig can give.</summary>
/// <param name="Reached">Whether the wish is met; otherwise the rest describes the nearest.</param>
/// <param name="SideLevel">To decode at: the gain of the recorded side, the mid at unity.</param>
/// <param name="MidTrim">Gain of both that makes each virtual microphone as loud on its axis as the mid alone; 0 dB where none is asked for.</param>
/// <param name="Wanted">What was asked for, in the unit of the question.</param>
/// <param name="Got">What the setting gives, in the same unit; null when no side level gives any.</param>
/// <param name="Pair">The crossed pair the setting is equal to; null where no rig was needed.</param>
/// <param name="Assumptions">What was not known of the rig and was assumed; whole sentences without a full stop.</param>
/// <param name="Remark">One sentence without a full stop: what it gives, or why the wish is not reachable and what is nearest.</param>
public sealed record WidthAnswer(
    bool Reached,
    Decibels SideLevel,
    Decibels MidTrim,
    double Wanted,
    double? Got,
    VirtualPair? Pair,
    IReadOnlyList<string> Assumptions,
    string Remark);
