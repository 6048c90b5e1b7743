using Athwart.Quantities;

namespace Athwart.Scenes;

/// <summary>A generated take and what is known about it.</summary>
public sealed record RenderedScene
{
    /// <summary>The scene it was made from.</summary>
    public required Scene Scene { get; init; }

    /// <summary>Sample rate in hertz.</summary>
    public required int SampleRateHertz { get; init; }

    /// <summary>Two planes of equal length, full scale ±1: mid and side unless a fault says otherwise. 16- and 24-bit words are exact in float.</summary>
    public required float[][] Channels { get; init; }

    /// <summary>What is known.</summary>
    public required Truth Truth { get; init; }

    /// <summary>How many frames it has.</summary>
    public int Frames => Channels[0].Length;

    /// <summary>The plane in which a role is expected: mid first, side second.</summary>
    public float[] this[ChannelRole role] => Channels[role == ChannelRole.Side ? 1 : 0];
}
