using Athwart.Jobs.Roles;
using Athwart.Quantities;

namespace Athwart.Jobs.CheckTakes;

/// <summary>Which recordings to check, and at which side level their decode is judged.</summary>
public sealed record CheckRequest
{
    /// <summary>Files and folders; folders are searched with all that lies below.</summary>
    public required IReadOnlyList<string> Paths { get; init; }

    /// <summary>The side level at which left and right are predicted; 0 dB unless said.</summary>
    public Decibels SideLevel { get; init; } = Decibels.Unity;

    /// <summary>What the recordist says of the channels of every take, over what the files say.</summary>
    public RoleSettings TakeRoles { get; init; } = RoleSettings.None;

    /// <summary>What the recordist says where the files say nothing.</summary>
    public RoleSettings SessionRoles { get; init; } = RoleSettings.None;

    /// <summary>How many takes are read at once; the number of processors unless said, at least 1.</summary>
    public int Threads { get; init; } = Environment.ProcessorCount;
}
