namespace Athwart.Scenes.Sources;

/// <summary>Where a source is at a time.</summary>
public abstract record Trajectory
{
    /// <summary>The place at so many seconds from the start of the take; also before it.</summary>
    public abstract Place At(double seconds);

    /// <summary>Whether it never moves.</summary>
    public virtual bool IsFixed => false;
}

/// <summary>Stays where it is.</summary>
/// <param name="Place">Metres, in the scene.</param>
public sealed record FixedPlace(Place Place) : Trajectory
{
    /// <inheritdoc/>
    public override bool IsFixed => true;

    /// <inheritdoc/>
    public override Place At(double seconds) => Place;
}

/// <summary>Moves straight at a constant speed.</summary>
/// <param name="Start">Where it is at 0 s.</param>
/// <param name="Velocity">Metres per second along each axis; well below the speed of sound.</param>
public sealed record StraightPath(Place Start, Place Velocity) : Trajectory
{
    /// <summary>From one place at 0 s to another so many seconds later, and on.</summary>
    public static StraightPath Between(Place from, Place to, double seconds) => new(from, (1 / seconds) * (to - from));

    /// <inheritdoc/>
    public override Place At(double seconds) => Start + (seconds * Velocity);
}

/// <summary>Goes round a place at a constant distance and height.</summary>
/// <param name="Centre">The place it goes round.</param>
/// <param name="Metres">The distance.</param>
/// <param name="StartDegrees">Azimuth at 0 s, positive to the left.</param>
/// <param name="DegreesPerSecond">How fast; positive turns to the left.</param>
public sealed record CirclePath(Place Centre, double Metres, double StartDegrees, double DegreesPerSecond) : Trajectory
{
    /// <inheritdoc/>
    public override Place At(double seconds) => Centre + Place.Polar(StartDegrees + (DegreesPerSecond * seconds), Metres);
}
