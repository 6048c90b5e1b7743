using Athwart.Quantities;

namespace Athwart.Microphones.Rigs;

/// <summary>The answer to 'which side level for ...': the setting, or the nearest that this mid can give.</summary>
/// <param name="Reached">Whether the wish is met with a side level between those two ends; otherwise the rest describes the nearest.</param>
/// <param name="SideLevel">gS/gM to set, within <see cref="RigSettings.Lowest"/> and <see cref="RigSettings.Highest"/>.</param>
/// <param name="MidTrim">Gain of both that makes each virtual microphone as loud on its axis as the mid alone: −20·lg(A + R).</param>
/// <param name="Wanted">What was asked for: degrees, or an omni share.</param>
/// <param name="Got">What the setting gives, in the same unit; null when no side level gives any.</param>
/// <param name="Pair">The crossed pair the setting is equal to.</param>
/// <param name="Remark">One sentence: reached, or why not and what is nearest.</param>
public sealed record RigSetting(bool Reached, Decibels SideLevel, Decibels MidTrim, double Wanted, double? Got, VirtualPair Pair, string Remark);
