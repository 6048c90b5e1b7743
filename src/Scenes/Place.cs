namespace Athwart.Scenes;

/// <summary>A place or a direction in the scene, in metres: x the way the rig looks at azimuth 0, y to its left, z upwards.</summary>
/// <param name="X">Forward, metres.</param>
/// <param name="Y">To the left, metres.</param>
/// <param name="Z">Up, metres; the ground of a scene is at 0.</param>
public readonly record struct Place(double X, double Y, double Z)
{
    /// <summary>The distance from the origin, metres.</summary>
    public double Length => Math.Sqrt(Dot(this));

    /// <summary>The scalar product.</summary>
    public double Dot(Place other) => (X * other.X) + (Y * other.Y) + (Z * other.Z);

    /// <summary>At an azimuth (degrees, positive to the left) and elevation (degrees, positive upwards), so many metres from the origin.</summary>
    public static Place Polar(double azimuthDegrees, double metres, double elevationDegrees = 0)
    {
        var (azimuth, elevation) = (azimuthDegrees * Math.PI / 180, elevationDegrees * Math.PI / 180);
        return new(metres * Math.Cos(azimuth) * Math.Cos(elevation), metres * Math.Sin(azimuth) * Math.Cos(elevation), metres * Math.Sin(elevation));
    }

    /// <summary>One place moved by another.</summary>
    public static Place operator +(Place left, Place right) => new(left.X + right.X, left.Y + right.Y, left.Z + right.Z);

    /// <summary>The way from the second to the first.</summary>
    public static Place operator -(Place left, Place right) => new(left.X - right.X, left.Y - right.Y, left.Z - right.Z);

    /// <summary>Stretched.</summary>
    public static Place operator *(double factor, Place place) => new(factor * place.X, factor * place.Y, factor * place.Z);
}
