namespace Athwart.Scenes.Rigs;

/// <summary>One microphone and its input.</summary>
public sealed record RigChannel
{
    /// <summary>Millivolts for one pascal on the axis.</summary>
    public double SensitivityMillivoltsPerPascal { get; init; } = 20;

    /// <summary>Equivalent noise level of microphone and input, dBA; white. −∞ for none.</summary>
    public double EquivalentNoiseDecibels { get; init; } = 14;

    /// <summary>Where the low end falls off, hertz; 0 for none.</summary>
    public double LowCornerHertz { get; init; } = 20;

    /// <summary>Butterworth order of the low end, 1 to 4.</summary>
    public int LowCornerOrder { get; init; } = 1;

    /// <summary>
    /// Sound off the axis loses its highs above this: a first-order low pass at BeamHertz·2/(1 − cos θ) for the mid and at
    /// BeamHertz/(1 − |cos θ|) for the side. Infinite for a pattern that does not change with frequency.
    /// </summary>
    public double BeamHertz { get; init; } = double.PositiveInfinity;

    /// <summary>The peak sound pressure level at which the microphone itself clips; infinite when it does not.</summary>
    public double MaximumDecibels { get; init; } = double.PositiveInfinity;

    /// <summary>Whether the microphone clips softly: straight to half its maximum, then bending towards it.</summary>
    public bool ClipsSoftly { get; init; }

    /// <summary>Gain of the input in decibels.</summary>
    public double GainDecibels { get; init; } = 40;
}
