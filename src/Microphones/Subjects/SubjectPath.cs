using Athwart.Microphones.Levels;

namespace Athwart.Microphones.Subjects;

/// <summary>The side a passing subject comes from.</summary>
public enum PassingFrom
{
    /// <summary>From the left to the right.</summary>
    Left,

    /// <summary>From the right to the left.</summary>
    Right,
}

/// <summary>A straight path past the microphones, such as a boat's.</summary>
/// <remarks>Plane geometry; level by spreading alone, see <see cref="Air.SoundPath"/>.</remarks>
public sealed record SubjectPath
{
    /// <summary>Length in metres, above 0.</summary>
    public required double LengthMetres { get; init; }

    /// <summary>Distance of closest approach of the path's line, in metres, above 0.</summary>
    public required double ClosestMetres { get; init; }

    /// <summary>Where along the path, in metres from its start, it is closest; half the length unless said; may lie before the start or after the end.</summary>
    public double? ClosestAlongMetres { get; init; }

    /// <summary>Where along the path, in metres from its start, the mid points; the closest point unless said.</summary>
    public double? AimAlongMetres { get; init; }

    /// <summary>Where it comes from.</summary>
    public PassingFrom From { get; init; } = PassingFrom.Left;

    /// <summary>Speed in metres per second, above 0; null when not known.</summary>
    public double? MetresPerSecond { get; init; }

    /// <summary>How long it takes, in seconds; null when the speed is not known.</summary>
    public double? Seconds => LengthMetres / MetresPerSecond;

    /// <summary>What it sees of the path: its start and its end as edges.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A length or the speed is out of range.</exception>
    public SubjectAngle Angle()
    {
        var (start, end) = (At(0).AzimuthDegrees, At(LengthMetres).AzimuthDegrees);
        return new(Math.Max(start, end), Math.Min(start, end));
    }

    /// <summary>The furthest, the nearest and what lies between: how far the level rises and falls along the path, in dB, 0 or more.</summary>
    public double LevelChangeDecibels()
    {
        var nearest = DistanceAt(Math.Clamp(ClosestAlong, 0, LengthMetres));
        var furthest = Math.Max(DistanceAt(0), DistanceAt(LengthMetres));
        return Air.SoundPath.SpreadingDecibels(nearest, furthest);
    }

    /// <summary>A place on the path.</summary>
    /// <param name="alongMetres">Metres from the start, from 0 to the length.</param>
    public PathPoint At(double alongMetres)
    {
        Check();
        Require.Within(alongMetres, 0, LengthMetres);
        var distance = DistanceAt(alongMetres);
        return new(alongMetres, alongMetres / MetresPerSecond, Bearing(alongMetres) - Bearing(AimAlongMetres ?? ClosestAlong), distance, -Air.SoundPath.SpreadingDecibels(ClosestMetres, distance));
    }

    /// <summary>Places along the path at even steps, the first the start and the last the end.</summary>
    /// <param name="count">2 or more.</param>
    public IReadOnlyList<PathPoint> Points(int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 2);
        return [.. Enumerable.Range(0, count).Select(index => At(LengthMetres * index / (count - 1)))];
    }

    private double ClosestAlong => ClosestAlongMetres ?? (LengthMetres / 2);

    private double DistanceAt(double along) => Math.Sqrt((ClosestMetres * ClosestMetres) + ((along - ClosestAlong) * (along - ClosestAlong)));

    /// <summary>Degrees to the left of the square onto the path.</summary>
    private double Bearing(double along)
        => double.RadiansToDegrees(Math.Atan2(From == PassingFrom.Left ? ClosestAlong - along : along - ClosestAlong, ClosestMetres));

    private void Check()
    {
        Require.Positive(LengthMetres);
        Require.Positive(ClosestMetres);
        Require.Finite(ClosestAlong);
        Require.Finite(AimAlongMetres ?? 0);
        if (MetresPerSecond is { } speed)
            Require.Positive(speed, nameof(MetresPerSecond));
    }
}

/// <summary>A place on a path.</summary>
/// <param name="AlongMetres">Metres from the start.</param>
/// <param name="Seconds">When it is there, from the start; null when the speed is not known.</param>
/// <param name="AzimuthDegrees">Where it is seen, positive to the left, 0 where the mid points.</param>
/// <param name="DistanceMetres">How far it is.</param>
/// <param name="LevelDecibels">Its level against the distance of closest approach, in dB, 0 or less.</param>
public readonly record struct PathPoint(double AlongMetres, double? Seconds, double AzimuthDegrees, double DistanceMetres, double LevelDecibels);
