namespace Athwart.Microphones.Hearing;

/// <summary>What about a subject can hurt.</summary>
[Flags]
public enum SubjectHazards
{
    /// <summary>Nothing special.</summary>
    None = 0,

    /// <summary>A source that can harm hearing.</summary>
    LoudSource = 1 << 0,

    /// <summary>Listening in headphones.</summary>
    Headphones = 1 << 1,

    /// <summary>A railway.</summary>
    Railway = 1 << 2,

    /// <summary>A road.</summary>
    Road = 1 << 3,

    /// <summary>Open water.</summary>
    Water = 1 << 4,

    /// <summary>The edge of a lock, quay or basin.</summary>
    LockEdge = 1 << 5,

    /// <summary>Height.</summary>
    Height = 1 << 6,

    /// <summary>Heat, cold, wind, ice, dark.</summary>
    Weather = 1 << 7,

    /// <summary>Thunder.</summary>
    Lightning = 1 << 8,

    /// <summary>Animals.</summary>
    Wildlife = 1 << 9,

    /// <summary>Ground or a building that belongs to somebody, or people that can be heard.</summary>
    Permission = 1 << 10,

    /// <summary>Machinery, moving bridges among it.</summary>
    Machinery = 1 << 11,
}
