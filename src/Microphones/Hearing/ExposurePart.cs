using Athwart.Microphones.Levels;

namespace Athwart.Microphones.Hearing;

/// <summary>A stretch of a day at one level at the ear: by a source, or in headphones at the level the recordist sets.</summary>
/// <param name="What">What it is, for the report.</param>
/// <param name="LevelDecibelsA">Level at the ear in dBA, without protection.</param>
/// <param name="Seconds">How long, 0 or more.</param>
public readonly record struct ExposurePart(string What, double LevelDecibelsA, double Seconds)
{
    internal ExposurePart Checked()
    {
        Require.Finite(LevelDecibelsA);
        Require.NotNegative(Seconds);
        return this;
    }
}
