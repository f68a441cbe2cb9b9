package app.tankround.chemistry.browser;

import org.teavm.jso.JSBody;
import org.teavm.jso.JSObject;

/** Reading and building plain JavaScript objects. Arguments are not coerced by the compiler, so types are asked for here. */
final class Json {

    private Json() {}

    @JSBody(
            params = {"object", "name"},
            script = "return object[name] === undefined || object[name] === null;")
    static native boolean isAbsent(JSObject object, String name);

    @JSBody(params = "object", script = "return object !== null && typeof object === 'object';")
    static native boolean isObject(JSObject object);

    @JSBody(params = "value", script = "return typeof value === 'number' && Number.isFinite(value);")
    static native boolean isFinite(JSObject value);

    @JSBody(params = "value", script = "return typeof value === 'boolean';")
    static native boolean isFlag(JSObject value);

    @JSBody(params = "value", script = "return value;")
    static native boolean asFlag(JSObject value);

    @JSBody(params = "value", script = "return typeof value === 'string';")
    static native boolean isText(JSObject value);

    @JSBody(
            params = {"object", "name"},
            script = "return object[name];")
    static native JSObject get(JSObject object, String name);

    @JSBody(params = "value", script = "return value;")
    static native double asNumber(JSObject value);

    @JSBody(params = "value", script = "return value;")
    static native String asText(JSObject value);

    @JSBody(params = "array", script = "return Array.isArray(array) ? array.length : -1;")
    static native int length(JSObject array);

    @JSBody(
            params = {"array", "index"},
            script = "return array[index];")
    static native JSObject at(JSObject array, int index);

    @JSBody(script = "return {};")
    static native JSObject object();

    @JSBody(script = "return [];")
    static native JSObject array();

    @JSBody(
            params = {"array", "value"},
            script = "array.push(value);")
    static native void add(JSObject array, JSObject value);

    @JSBody(
            params = {"array", "value"},
            script = "array.push(value);")
    static native void add(JSObject array, String value);

    @JSBody(
            params = {"array", "value"},
            script = "array.push(value);")
    static native void add(JSObject array, double value);

    @JSBody(
            params = {"object", "name", "value"},
            script = "object[name] = value;")
    static native void put(JSObject object, String name, double value);

    @JSBody(
            params = {"object", "name", "value"},
            script = "object[name] = value;")
    static native void put(JSObject object, String name, boolean value);

    @JSBody(
            params = {"object", "name", "value"},
            script = "object[name] = value;")
    static native void put(JSObject object, String name, String value);

    @JSBody(
            params = {"object", "name", "value"},
            script = "object[name] = value;")
    static native void put(JSObject object, String name, JSObject value);

    @JSBody(
            params = {"object", "name"},
            script = "object[name] = null;")
    static native void putNull(JSObject object, String name);
}
