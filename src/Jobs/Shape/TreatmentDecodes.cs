namespace Athwart.Jobs.Shape;

/// <summary>From the width that a treatment asks for to the side level that makes it.</summary>
internal static class TreatmentDecodes
{
    /// <summary>Refuses a width said in several ways, or out of range.</summary>
    public static void Check(TreatmentDecode? decode, string name)
    {
        if (decode is null)
            return;
        var ways = (decode.SideLevelDecibels is null ? 0 : 1) + (decode.NoSide is true ? 1 : 0);
        TreatmentRules.Require(ways == 1, name, "decode", "the width is said in exactly one way", "Keep one of its fields.");
        TreatmentRules.Require(decode.SideLevelDecibels is null or (>= -100 and <= 60), name, "decode.sideLevelDecibels", "it lies between −100 and +60 dB", "Give a level in that range, or noSide.");
    }
}
