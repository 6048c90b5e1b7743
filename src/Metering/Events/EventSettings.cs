namespace Athwart.Metering.Events;

/// <summary>What counts as one event.</summary>
public sealed record EventSettings
{
    /// <summary>How far a sound rises over the floor, in some band of some role, to be an event: 6 to 60 dB. Low bands, which waver more by nature, need up to 3.5 dB more.</summary>
    public double OnsetDecibels { get; init; } = 9;

    /// <summary>Sounds no further apart than this are one event, 0 to 60 s. Long sounds are also joined over a pause of up to 15 % of the longer, at most a second.</summary>
    public double JoinSeconds { get; init; } = 0.25;

    /// <summary>Whether strikes that stand well apart inside one event, as steps in a room do, become a row of events.</summary>
    public bool SplitsRows { get; init; } = true;

    /// <summary>Shortest time between the strikes of a row; what strikes faster is one event, as a ratchet is. 0.05 to 10 s.</summary>
    public double RowSeconds { get; init; } = 0.3;

    /// <summary>The settings, when each lies in its range.</summary>
    /// <exception cref="ArgumentOutOfRangeException">One does not.</exception>
    public EventSettings Checked()
    {
        Require(OnsetDecibels is >= 6 and <= 60, nameof(OnsetDecibels), OnsetDecibels, "an onset lies 6 to 60 dB over the floor");
        Require(JoinSeconds is >= 0 and <= 60, nameof(JoinSeconds), JoinSeconds, "a gap to join lasts 0 to 60 s");
        Require(RowSeconds is >= 0.05 and <= 10, nameof(RowSeconds), RowSeconds, "strikes of a row stand 0.05 to 10 s apart");
        return this;
    }

    private static void Require(bool kept, string name, double value, string rule)
    {
        if (!kept)
            throw new ArgumentOutOfRangeException(name, value, rule + ".");
    }
}
