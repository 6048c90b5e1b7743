using System.Globalization;

namespace Athwart.Quantities;

/// <summary>How much a finding matters for the delivered effect.</summary>
public enum FindingSeverity
{
    /// <summary>Good to know; the effect is sound.</summary>
    Note = 0,

    /// <summary>Listen before delivering; a remedy may be wanted.</summary>
    Caution,

    /// <summary>The effect is damaged, or will be if delivered as it stands.</summary>
    Fault,
}

/// <summary>A number a finding rests on, with its unit.</summary>
/// <param name="Name">What was measured, such as 'side below mid'.</param>
/// <param name="Value">The number; may be infinite for silence.</param>
/// <param name="Unit">The unit, such as 'dB', 'frames', 'Hz'; empty for a bare ratio.</param>
public sealed record Evidence(string Name, double Value, string Unit)
{
    /// <summary>'side below mid 31.2 dB'; invariant culture.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Name} {Value:0.###} {Unit}").TrimEnd();
}

/// <summary>One thing wrong or noteworthy in a take.</summary>
public sealed record Finding
{
    /// <summary>The kind, a fixed kebab-case word that scripts may rely on, such as 'flat-tops'; docs/findings.md lists them.</summary>
    public required string Kind { get; init; }

    /// <summary>How much it matters.</summary>
    public required FindingSeverity Severity { get; init; }

    /// <summary>One sentence for the recordist: what is wrong and how bad, with numbers and units.</summary>
    public required string Message { get; init; }

    /// <summary>What to do about it, in one sentence; empty when nothing needs doing.</summary>
    public string Remedy { get; init; } = "";

    /// <summary>The role it was found in; null when it concerns the pair, the decoded stereo or the file.</summary>
    public ChannelRole? Role { get; init; }

    /// <summary>Where in the take; null when it concerns the whole.</summary>
    public FrameRange? Range { get; init; }

    /// <summary>The file it concerns, as a path or a name; null when it concerns the take.</summary>
    public string? File { get; init; }

    /// <summary>From 0, a guess, to 1, certain.</summary>
    public double Confidence { get; init; } = 1;

    /// <summary>How big, in the unit of <see cref="SizeUnit"/>; null when it has no size.</summary>
    public double? Size { get; init; }

    /// <summary>The unit of <see cref="Size"/>.</summary>
    public string SizeUnit { get; init; } = "";

    /// <summary>The numbers it rests on.</summary>
    public IReadOnlyList<Evidence> Evidence { get; init; } = [];
}
