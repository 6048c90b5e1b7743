namespace Athwart.Metering.LineUp;

/// <summary>The fixed words for what a line-up finds; scripts may rely on them. docs/line-up.md lists them.</summary>
public static class LineUpKinds
{
    /// <summary>The first channel is the side.</summary>
    public const string RolesSwapped = "roles-swapped";

    /// <summary>The side's positive lobe points right.</summary>
    public const string SideInverted = "side-inverted";

    /// <summary>The side hears the front: it does not stand at 90 degrees.</summary>
    public const string SideNotSquare = "side-not-square";

    /// <summary>The side has one sign on both sides: it is no figure-8.</summary>
    public const string SideNotFigureEight = "side-not-figure-eight";

    /// <summary>The rear is louder in the mid than the front.</summary>
    public const string MidBackwards = "mid-backwards";

    /// <summary>The rear is louder in the mid than the pattern given allows.</summary>
    public const string PatternDisagrees = "mid-pattern-disagrees";

    /// <summary>The channels are left and right.</summary>
    public const string AlreadyDecoded = "already-decoded";

    /// <summary>Side over mid is not the same from left and from right.</summary>
    public const string SidesUnequal = "sides-unequal";

    /// <summary>The sounds of one direction differ from one another.</summary>
    public const string SoundsDisagree = "sounds-disagree";

    /// <summary>The side is late or early by more than spacing explains.</summary>
    public const string SideLate = "side-late";

    /// <summary>The sounds cannot be told apart or assigned to directions.</summary>
    public const string CannotTell = "cannot-tell";
}
