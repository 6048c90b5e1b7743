namespace Athwart.Signals.Shaping;

/// <summary>Which channel of the pair a step treats.</summary>
[Flags]
public enum PairRoles
{
    /// <summary>Neither: no step takes this.</summary>
    None = 0,

    /// <summary>The mid alone.</summary>
    Mid = 1,

    /// <summary>The side alone.</summary>
    Side = 2,

    /// <summary>Mid and side alike.</summary>
    Both = Mid | Side,
}
