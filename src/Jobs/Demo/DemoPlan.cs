using Athwart.Jobs.Demo.Takes;

namespace Athwart.Jobs.Demo;

/// <summary>How a take lies on the card.</summary>
internal enum DemoLayout
{
    /// <summary>One file, mid then side.</summary>
    Pair = 0,

    /// <summary>One file, side then mid, and only the track functions say so.</summary>
    SwappedPair,

    /// <summary>Two files of two channels, the second continuing where the first ends.</summary>
    Split,

    /// <summary>Two files of one channel.</summary>
    MonoPair,

    /// <summary>One file that was never finished.</summary>
    PowerFailure,

    /// <summary>One file that also holds the recorder's own left and right.</summary>
    FourChannels,
}

/// <summary>One take of the day: what, when and how it lies on the card.</summary>
/// <param name="Number">1 to 8; also its seed.</param>
/// <param name="Scene">iXML scene.</param>
/// <param name="Title">What is heard, in a few words.</param>
/// <param name="Note">What the recordist noted.</param>
/// <param name="Time">Time of day, hh:mm:ss.</param>
/// <param name="Word">'s24' or 'f32'.</param>
/// <param name="Layout">How it lies on the card.</param>
/// <param name="Build">Makes the sound from a seed.</param>
internal sealed record DemoPlan(int Number, string Scene, string Title, string Note, TimeSpan Time, string Word, DemoLayout Layout, Func<ulong, DemoScene> Build)
{
    /// <summary>The day at the lock, in order.</summary>
    public static IReadOnlyList<DemoPlan> Day { get; } =
    [
        new(1, "gates", "Lower gates closing", "Both leaves, then the boom; watch the level of the mid.", new(9, 41, 7), "s24", DemoLayout.Pair, LockGates.Build),
        new(2, "sluice", "Sluices opening", "Paddles drawn, water into the chamber, very wide.", new(9, 52, 30), "s24", DemoLayout.Split, Sluice.Build),
        new(3, "boat", "Narrowboat passing left to right", "Slow engine; some wind towards the end.", new(10, 15, 2), "s24", DemoLayout.Pair, BoatPass.Build),
        new(4, "bridge", "Lift bridge: bell and motor", "Stood close to the bell on the left.", new(10, 48, 55), "f32", DemoLayout.Pair, BridgeBell.Build),
        new(5, "towpath", "Footsteps on the towpath", "Single steps right to left, for cutting.", new(11, 20, 13), "s24", DemoLayout.SwappedPair, Footsteps.Build),
        new(6, "ambience", "The lock at rest", "Far weir, birds, nobody about.", new(12, 5, 40), "s24", DemoLayout.MonoPair, LockAmbience.Build),
        new(7, "deck", "Cars over the bridge deck", "Battery gave out during this one.", new(13, 31, 18), "s24", DemoLayout.PowerFailure, DeckThump.Build),
        new(8, "paddle", "Paddle gear ratchet", "With the recorder's own left and right alongside.", new(14, 2, 44), "s24", DemoLayout.FourChannels, PaddleGear.Build),
    ];

    /// <summary>The stem of its file names.</summary>
    public string Name => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"LOCK-T{Number:00}");
}
