using System.Globalization;

namespace Athwart.Microphones.Patterns;

/// <summary>A pattern A + B·cos θ with A + B = 1: an omni share and a figure-8 share.</summary>
/// <param name="OmniShare">A, from 0 (figure-8) to 1 (omni); anything else, NaN too, throws <see cref="ArgumentOutOfRangeException"/>.</param>
/// <remarks>The figures of a pattern (arcs, null, directivity) are in <see cref="PatternFigures"/>. Source: HyperPhysics, Georgia State University, first-order microphones; see docs/sources.md.</remarks>
public sealed record FirstOrderPattern(double OmniShare) : IPattern
{
    /// <summary>A, the omni share, from 0 to 1.</summary>
    public double OmniShare { get; } = OmniShare is >= 0 and <= 1 ? OmniShare
        : throw new ArgumentOutOfRangeException(nameof(OmniShare), OmniShare, "the omni share lies between 0 (figure-8) and 1 (omni); 0.5 is a cardioid");

    /// <summary>Hears all around alike.</summary>
    public static FirstOrderPattern Omni { get; } = new(1);

    /// <summary>Between omni and cardioid, 0.7 + 0.3·cos θ.</summary>
    public static FirstOrderPattern Subcardioid { get; } = new(0.7);

    /// <summary>Deaf behind, 0.5 + 0.5·cos θ.</summary>
    public static FirstOrderPattern Cardioid { get; } = new(0.5);

    /// <summary>The first-order pattern with the most front against back, A = (√3 − 1)/2.</summary>
    public static FirstOrderPattern Supercardioid { get; } = new((Math.Sqrt(3) - 1) / 2);

    /// <summary>The first-order pattern with the highest directivity, A = 1/4.</summary>
    public static FirstOrderPattern Hypercardioid { get; } = new(0.25);

    /// <summary>Deaf to both sides of its axis, cos θ.</summary>
    public static FirstOrderPattern FigureEight { get; } = new(0);

    /// <summary>The named patterns, widest first.</summary>
    public static IReadOnlyList<FirstOrderPattern> Named { get; } = [Omni, Subcardioid, Cardioid, Supercardioid, Hypercardioid, FigureEight];

    /// <summary>B, the figure-8 share.</summary>
    public double FigureEightShare => 1 - OmniShare;

    /// <inheritdoc/>
    public string Name => this switch
    {
        _ when this == Omni => "omni",
        _ when this == Subcardioid => "subcardioid",
        _ when this == Cardioid => "cardioid",
        _ when this == Supercardioid => "supercardioid",
        _ when this == Hypercardioid => "hypercardioid",
        _ when this == FigureEight => "figure-8",
        _ => string.Create(CultureInfo.InvariantCulture, $"omni share {OmniShare:0.####}"),
    };

    /// <summary>A + B·cos θ.</summary>
    public double Gain(double angleRadians) => OmniShare + (FigureEightShare * Math.Cos(angleRadians));

    /// <inheritdoc/>
    public double Gain(double angleRadians, double frequencyHertz) => Gain(angleRadians);
}
