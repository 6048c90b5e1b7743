using Athwart.Scenes.Rigs;

namespace Athwart.Scenes.Tests.Support;

/// <summary>Rigs that add nothing: for closed forms.</summary>
internal static class QuietRig
{
    public static RigChannel Channel { get; } = new() { EquivalentNoiseDecibels = double.NegativeInfinity, LowCornerHertz = 0 };

    public static Rig Rig { get; } = new() { Mid = Channel, Side = Channel, Word = SampleWord.Floating, Place = default };
}
