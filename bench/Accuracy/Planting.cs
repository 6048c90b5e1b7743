using Athwart.Quantities;
using Athwart.Scenes.Faults;
using Athwart.Scenes.Numbers;

namespace Athwart.Accuracy;

/// <summary>A fault to plant, and what the check must say of it.</summary>
/// <param name="Name">In the table.</param>
/// <param name="Size">The size that matters to a listener, in words.</param>
/// <param name="Plant">Draws the fault for a take; null when the take offers no place for it.</param>
internal sealed record Planting(string Name, string Size, Func<BaseTake, Chance, Planted?> Plant);

/// <summary>A drawn fault.</summary>
internal sealed record Planted(IReadOnlyList<Fault> Faults, params string[] Kinds)
{
    /// <summary>The role that must be named; null when the pair is concerned.</summary>
    public ChannelRole? Role { get; init; }

    /// <summary>What is measured: a number that a finding must give, with its tolerance.</summary>
    public Figure? Number { get; init; }

    /// <summary>Whether runs in the truth must be met to the frame.</summary>
    public string? EdgesOf { get; init; }

    /// <summary>Whether the number counts: the signal stands far enough above the surroundings.</summary>
    public bool Judged { get; init; } = true;
}

/// <summary>A number the finding must give.</summary>
/// <param name="Name">Of what.</param>
/// <param name="True">What it is.</param>
/// <param name="Tolerance">How far off it may be; a ratio when <paramref name="IsRatio"/>.</param>
/// <param name="Read">Reads it from the finding.</param>
/// <param name="IsRatio">Whether the error is a ratio, in octaves.</param>
internal sealed record Figure(string Name, double True, double Tolerance, Func<Finding, double> Read, bool IsRatio = false)
{
    public double Error(Finding finding) => IsRatio ? Math.Log2(Read(finding) / True) : Read(finding) - True;
}
