using Athwart.Jobs.LineUp;
using Athwart.Jobs.Roles;
using Athwart.Metering;
using Athwart.Metering.Direction;
using Athwart.Metering.Width;
using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.CheckTakes;

/// <summary>What the check of several takes found.</summary>
/// <param name="SideLevel">The side level at which the decode was judged.</param>
/// <param name="Takes">The takes, in order of name.</param>
/// <param name="Refused">Files that hold no recording we can read, with the reason.</param>
public sealed record CheckReport(Decibels SideLevel, IReadOnlyList<TakeCheck> Takes, IReadOnlyList<RefusedFile> Refused)
{
    /// <summary>Whether a take has a fault or a file was refused.</summary>
    public bool HasFaults => Refused.Count > 0 || Takes.Any(t => t.Worst == FindingSeverity.Fault);
}

/// <summary>One take: what it is, what it measures, what is wrong with it.</summary>
public sealed record TakeCheck
{
    /// <summary>What the take is made of.</summary>
    public required TakeDescription Take { get; init; }

    /// <summary>Which channel is which, and why.</summary>
    public required RoleAssignment Roles { get; init; }

    /// <summary>The measures of mid, side and their decode.</summary>
    public required TakeMeasures Measures { get; init; }

    /// <summary>How the recorder's own left and right relate to mid and side; null when the take has none.</summary>
    public DecodedPairMatch? RecordedDecode { get; init; }

    /// <summary>The take, or this one, that holds the recorder's own left and right; null when there is none.</summary>
    public string? RecordedDecodeOf { get; init; }

    /// <summary>Where the dominant sound was over time; null when it was not listened for or there is no side.</summary>
    public DirectionTrail? Direction { get; init; }

    /// <summary>Width, lean and mono; null as the direction is.</summary>
    public WidthMeasures? Width { get; init; }

    /// <summary>The profile of the rig that was taken into account; null when none is attached.</summary>
    public RigProfileDocument? Rig { get; init; }

    /// <summary>Everything wrong or noteworthy, worst first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>The files of the findings' pictures, in their order; empty when none were asked for.</summary>
    public IReadOnlyList<string> Pictures { get; init; } = [];

    /// <summary>The worst severity; null when nothing was found.</summary>
    public FindingSeverity? Worst => Findings.Count == 0 ? null : Findings.Max(f => f.Severity);
}
